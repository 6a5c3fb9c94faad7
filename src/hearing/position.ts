/** Which answer of a list is meant by its place: "2", "#2", "b)", "the second one", "last". */

const ORDINALS: [RegExp, number][] = [
  [/^(?:1st|first|erste[nrs]?|premiere?|1er|1ere|primer[oa]?)$/, 1],
  [/^(?:2nd|second|zweite[nrs]?|deuxieme|2eme|2e|segund[oa])$/, 2],
  [/^(?:3rd|third|dritte[nrs]?|troisieme|3eme|3e|tercer[oa]?)$/, 3],
  [/^(?:4th|fourth|forth|vierte[nrs]?|quatrieme|4eme|cuart[oa])$/, 4],
  [/^(?:5th|fifth|funfte[nrs]?|cinquieme|5eme|quint[oa])$/, 5],
  [/^(?:6th|sixth|sechste[nrs]?|sixieme|6eme|sext[oa])$/, 6],
  [/^(?:7th|seventh|siebte[nrs]?|septieme|7eme|septim[oa])$/, 7],
  [/^(?:8th|eighth|achte[nrs]?|huitieme|8eme|octav[oa])$/, 8],
  [/^(?:9th|ninth|neunte[nrs]?|neuvieme|noven[oa])$/, 9],
  [/^(?:last|letzte[nrs]?|derniere?|ultim[oa]|bottom)$/, -1],
];
const FIGURES =
  'one two three four five six seven eight nine|eins zwei drei vier funf sechs sieben acht neun|un deux trois quatre cinq six sept huit neuf|uno dos tres cuatro cinco seis siete ocho nueve'
    .split('|')
    .map(words => words.split(' '));
const AROUND = new Set(
  `the option number answer choice no nr num it's its it is that i choose pick take select would say think go with for one please button
  die der das den antwort nummer option ich nehme le la les reponse numero el opcion respuesta uno top from list point line and`.split(
    /\s+/,
  ),
);

/** Index of the answer, null when the words are not about a place, `none` when there is no such place. */
export function placeOf(words: readonly string[], count: number, text: string): number | 'none' | null {
  // A letter alone may be a drive's; with a bracket or a dot it is a place: "b)".
  const letter = /^\(?([a-z])[.)]$/i.exec(text.trim());
  if (letter !== null) return within(letter[1]!.toLowerCase().charCodeAt(0) - 96, count);
  const figure = /^[#([]?\s?(\d{1,3})\s?(?:[.):\]]|\ufe0f?\u20e3)?[.!]?$/u.exec(text.trim());
  if (figure !== null) return within(Number(figure[1]), count);
  if (words.length > 7) return null;
  const kept = words.filter((word, at) => !AROUND.has(word) || (words.length === 1 && at === 0));
  if (kept.length !== 1) return null;
  const [word] = kept;
  for (const [ordinal, place] of ORDINALS) {
    if (!ordinal.test(word!)) continue;
    return place === -1 ? count - 1 : within(place, count);
  }
  if (
    /^\d{1,3}$/.test(word!) &&
    words.some(other =>
      /^(?:option|number|answer|choice|no|nr|num|nummer|numero|antwort|reponse|respuesta|opcion|button)$/.test(
        other,
      ),
    )
  )
    return within(Number(word), count);
  for (const figures of FIGURES) {
    const place = figures.indexOf(word!);
    if (place >= 0) return within(place + 1, count);
  }
  return null;
}

const within = (place: number, count: number): number | 'none' =>
  place >= 1 && place <= count ? place - 1 : 'none';
