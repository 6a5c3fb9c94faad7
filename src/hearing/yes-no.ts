/** Yes, no, not sure and skip, as people say them in English, German, French and Spanish. */
import { unhedged } from './hedges.ts';

const set = (ways: string): ReadonlySet<string> =>
  new Set(
    ways
      .split(/[|\n]/)
      .map(way => way.trim().replace(/\s+/g, ' '))
      .filter(way => way !== ''),
  );

const YES = set(
  `yes | y | yep | yup | yeah | yea | yah | yass | yess | ye | ya | aye | uh huh | mhm | mm hm | mhmm | sure | sure thing | for sure | of course | certainly | definitely | absolutely | indeed | correct |
  right | that's right | that is right | thats right | exactly | true | affirmative | positive | ok | okay | k | kk | alright | all right | fine | agreed | roger | you bet | totally | obviously |
  i think so | i think yes | think so | i believe so | i guess so | i guess yes | guess so | i suppose so | i would say so | i'd say so | seems so | it seems so | looks like it | it looks like it | it does | it is | it did | it has | it was | it will | yes it does | they are | they do |
  i do | i did | i have | i am | i can | there is | there are | there was | he does | she does | it sure does | sure does | does | yes please | please do | pretty sure | most likely | very likely | probably | likely | probably yes | mostly | mostly yes | always |
  👍 | ✅ | 👌 | ✔ | yes sir | yes ma'am | oh yes | yes indeed | yes of course | yes i think so | yes i do | yes it is | yes there is | yes i did | yes i have | yes i am | yes they are | yes they do | yes it did | yes it has | yes yes | yes sure | yes definitely | yes correct | unfortunately yes | sadly yes | afraid so | i'm afraid so | i am afraid so | yes unfortunately | yes probably |
  ja | jo | jap | jep | jepp | jup | jawohl | jaja | ja klar | klar | na klar | genau | stimmt | richtig | doch | ja doch | sicher | ja sicher | naturlich | freilich | leider ja | ich glaube schon | glaube schon | ich glaube ja | ich denke schon | denke schon | ja genau | ja bitte | wahrscheinlich | vermutlich | ja ist es | ist es | tut es | ja tut es |
  oui | ouais | ouep | si | bien sur | mais oui | oui bien sur | d'accord | tout a fait | exact | exactement | c'est ca | je crois | je crois que oui | je pense | je pense que oui | je pense oui | effectivement | evidemment | oui oui | carrement | malheureusement oui | probablement |
  claro | si claro | claro que si | por supuesto | correcto | exacto | vale | asi es | creo que si | pienso que si | me parece que si | si si | desde luego | efectivamente | sip | probablemente | si por favor`,
);
const NO = set(
  `no | no luck | no joy | no success | no dice | n | nope | nop | nah | naw | na | nay | negative | no way | not | not really | not at all | not that i know | not that i know of | not that i can see | not that i noticed | not as far as i know | not to my knowledge | not yet | not now | not anymore | not any more | i don't think so | don't think so | i dont think so | dont think so | i do not think so |
  i think not | think not | i guess not | guess not | i suppose not | i believe not | i don't believe so | doesn't seem so | doesn't look like it | it doesn't look like it | unlikely | not likely | probably not | likely not | certainly not | definitely not | absolutely not | of course not | by no means | never | false | wrong | incorrect | it doesn't | it doesnt | it does not | it isn't | it isnt | it is not | it's not | its not | it didn't | it didnt | it did not | it hasn't | it won't |
  it wasn't | there isn't | there isnt | there is not | there is none | there are none | there aren't | there's none | they aren't | they don't | they are not | i don't | i dont | i do not | i didn't | i didnt | i did not | i haven't | i havent | i have not | i'm not | i am not | i can't | nothing | none | none at all | no sir | no thanks | no thank you | no sorry | oh no | no no | no it doesn't | no it does not | no it isn't | no it is not | no it's not | no it didn't | no it did not |
  no there isn't | no there is not | no i don't | no i didn't | no i did not | no i haven't | no i don't think so | no i think not | no not really | no not at all | no never | no nothing | unfortunately not | sadly not | sadly no | unfortunately no | i'm afraid not | i am afraid not | afraid not | hardly | isn't | doesn't | didn't | don't | won't | 👎 | ❌ |
  nein | ne | nee | noe | no nein | nicht | nein nicht | eher nicht | nicht wirklich | uberhaupt nicht | gar nicht | auf keinen fall | nein danke | leider nein | leider nicht | ich glaube nicht | glaube nicht | ich denke nicht | denke nicht | wahrscheinlich nicht | vermutlich nicht | bisher nicht | noch nicht | niemals | nie | nichts | keine | kein | nicht dass ich wusste | nein ist es nicht | keinesfalls | falsch |
  non | nan | pas du tout | pas vraiment | non merci | pas encore | jamais | je ne crois pas | je crois pas | je ne pense pas | je pense pas | je pense que non | je crois que non | non pas du tout | bien sur que non | surement pas | probablement pas | malheureusement non | malheureusement pas | rien | aucun | aucune | pas que je sache | faux |
  no no | para nada | no mucho | en absoluto | creo que no | no creo | no lo creo | pienso que no | todavia no | aun no | nunca | jamas | claro que no | por supuesto que no | nada | ninguno | ninguna | tampoco | que yo sepa no | probablemente no | no gracias | que va | falso`,
);
const NOT_SURE = set(
  `not sure | i'm not sure | im not sure | i am not sure | not so sure | not really sure | not entirely sure | not quite sure | not totally sure | not 100% sure | not 100 % sure | not completely sure | unsure | i'm unsure | uncertain | not certain | i'm not certain | no idea | no clue | i have no idea | i have no clue | ive no idea | i've no idea | haven't a clue | haven't got a clue | don't have a clue | not a clue | not the faintest | no earthly idea |
  idk | i dk | dk | dunno | i dunno | dunno really | don't know | dont know | i don't know | i dont know | i do not know | do not know | i really don't know | i don't really know | i honestly don't know | honestly don't know | don't really know | i wouldn't know | wouldn't know | can't know | who knows | god knows | beats me | no way to tell | no way of knowing | hard to say | hard to tell | difficult to say | can't say | cant say | can't tell | cant tell | cannot say | cannot tell | couldn't say | couldn't tell | i can't say | i can't tell | i cannot tell | i cannot say | i couldn't tell | i couldn't say | impossible to say |
  don't remember | dont remember | i don't remember | i dont remember | can't remember | cant remember | i can't remember | i do not remember | i cannot remember | don't recall | i don't recall | can't recall | forgot | i forgot | i've forgotten | i don't understand | don't understand | no comprendo | unknown | not known | unclear | it depends | depends | maybe | perhaps | possibly | might be | could be | may be | it might | it could | it might be | it could be | maybe yes | maybe no | maybe not | maybe so | kind of | sort of | kinda | sorta | sometimes | a bit | a little | half half | 50 50 | yes and no | yes or no | i wonder | good question | don't care | whatever | 🤷 | don't know what that is | i don't know what that is | not sure what that is | not sure what that means | i don't know what that means | what's that | what is that | i have no idea what that is | no idea what that is | idk what that is | dunno what that is |
  weiss nicht | weiss ich nicht | ich weiss nicht | ich weiss es nicht | weiss es nicht | das weiss ich nicht | weiss ned | keine ahnung | hab keine ahnung | ich habe keine ahnung | ka | kp | kein plan | keinen plan | keine idee | nicht sicher | bin nicht sicher | ich bin nicht sicher | ich bin mir nicht sicher | bin mir nicht sicher | unsicher | bin unsicher | ich bin unsicher | vielleicht | eventuell | moglicherweise | kann sein | kann ich nicht sagen | schwer zu sagen | kann man nicht sagen | teils teils | jein | nicht bekannt | unbekannt | was ist das | weiss nicht was das ist |
  je ne sais pas | je sais pas | sais pas | j'sais pas | chais pas | jsp | je ne suis pas sur | je ne suis pas sure | pas sur | pas sure | pas certain | pas certaine | je suis pas sur | aucune idee | pas d'idee | je n'ai aucune idee | je n'en sais rien | j'en sais rien | peut-etre | peut etre | possible | c'est possible | difficile a dire | inconnu | je ne me souviens pas | je ne me rappelle pas | je l'ignore |
  no se | no lo se | yo no se | ni idea | no tengo idea | no tengo ni idea | ninguna idea | no estoy seguro | no estoy segura | no seguro | no segura | no estoy muy seguro | quiza | quizas | tal vez | puede ser | a lo mejor | puede | posiblemente | dificil decir | no me acuerdo | no recuerdo | desconocido | no sabria decir`,
);
const SKIP = set(
  `skip | skip it | skip this | skip that | skip please | please skip | skip this one | skip question | skip this question | skip the question | i'll skip | i'll skip this | i'd like to skip | let's skip | pass | i pass | i'll pass | pass on this | next | next question | next please | move on | none | nothing | no | nope | n/a | na | n a | not applicable | not needed | nothing to add | no thanks | no thank you | nope nothing | nothing special | no comment | leave blank | leave it blank | leave it empty | blank | empty | - | -- | — | . | / | x | later | not now | don't want to say | rather not say | rather not | i'd rather not | i'd rather not say | prefer not to say | can't | i can't | cannot | not possible | don't have it | i don't have it | don't have one | i don't have one | haven't got it | there isn't one | there is none | couldn't find it | can't find it | can't find one | cannot find it | can't see it | can't see one | not available | don't have that |
  uberspringen | uberspring | weiter | nachste | nachste frage | keine | keiner | kein | nichts | nein | auslassen | ohne | keine angabe |
  passer | passe | sauter | suivant | suivante | je passe | rien | non | aucun | aucune | question suivante |
  saltar | omitir | siguiente | paso | nada | ninguno | ninguna | pasar | omite | salta`,
);

export type Reply = 'yes' | 'no' | 'not-sure';

/** Anywhere in a yes or no, and adding nothing. */
const INTERJECTIONS = new Set(
  'well oh ah uh um hm hmm er erm so and but sorry please thanks then hi hello just honestly actually like haha lol bitte danke also naja tja ach merci svp bueno pues gracias por favor alas unfortunately indeed'.split(
    ' ',
  ),
);

/** What these words as a whole say, or null. */
export function replyOf(words: readonly string[]): Reply | null {
  return exact(words) ?? exact(unhedged(words)) ?? exact(words.filter(word => !INTERJECTIONS.has(word)));
}

function exact(words: readonly string[]): Reply | null {
  const whole = words.join(' ');
  if (NOT_SURE.has(whole)) return 'not-sure';
  if (YES.has(whole) || /^y+e+a+h*$|^y+e+s+$|^j+a+$|^y+e+p+$|^s+i+$/.test(whole)) return 'yes';
  return NO.has(whole) || /^n+o+$|^n+o+p+e+$|^n+e+i+n+$/.test(whole) ? 'no' : null;
}

/** How many of the first words are a yes or no and stand apart, with what they say. `ends`: after how many words a clause ends. */
export function leading(
  words: readonly string[],
  ends: (count: number) => boolean,
): { reply: Reply; count: number } | null {
  for (let count = Math.min(8, words.length); count > 0; count--) {
    const reply = exact(words.slice(0, count));
    if (reply === null) continue;
    if (
      ends(count) ||
      STAND_ALONE.has(words[count - 1]!) ||
      (words[count - 1] === 'no' && GOING_ON.has(words[count] ?? '')) ||
      (reply === 'not-sure' && count > 1)
    )
      return { reply, count };
  }
  return null;
}
/** "No it's off", "no same as before". */
const GOING_ON = new Set("it its it's i i'm im they we that's still same".split(' '));
/** Yes and no even without a comma after them. "No" is not among them: "no light" is a thing that is not there. */
const STAND_ALONE = new Set(
  'yes yep yup yeah yea nope nah nein nee oui non 👍 👎 ✅ ❌ ja jo jup ouais claro dunno idk'.split(' '),
);

export function isSkip(words: readonly string[], text: string): boolean {
  const whole = words.join(' ');
  return SKIP.has(whole) || SKIP.has(text.trim().toLowerCase()) || NOT_SURE.has(whole);
}
