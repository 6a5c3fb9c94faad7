/** What people say around an answer without meaning to change it: "well, no, I think". */

const HEDGES =
  `i think | i guess | i believe | i suppose | i'd say | i would say | i reckon | probably | to be honest | tbh | honestly | afaik | as far as i know |
  as far as i can tell | as far as i can see | i'm afraid | i am afraid | for sure | definitely | basically | i mean | you know | well | um | uh | uhm | hm | hmm | so | oh | ok | okay | lol | haha |
  please | pls | thanks | thank you | sorry | hi | hello | ich glaube | glaube ich | ich denke | denke ich | wohl | also | naja | na ja | bitte | danke | je crois | je pense | ben | merci | creo | creo que | pues | bueno | gracias`
    .split('|')
    .map(hedge => hedge.trim().split(/\s+/))
    .sort((a, b) => b.length - a.length);

/** The words without hedges at either end; never without any word left. */
export function unhedged(words: readonly string[]): readonly string[] {
  let kept = words;
  for (let count = 1; count > 0; kept = kept.slice(count)) count = hedged(kept, 0);
  for (let count = 1; count > 0; kept = kept.slice(0, kept.length - count)) count = hedged(kept, kept.length);
  return kept;
}

/** Words of the hedge that begins (0) or ends there; 0 for none, or when it is all there is. */
function hedged(words: readonly string[], place: number): number {
  const hedge = HEDGES.find(one => {
    const from = place === 0 ? 0 : place - one.length;
    return one.length < words.length && one.every((word, at) => words[from + at] === word);
  });
  return hedge?.length ?? 0;
}
