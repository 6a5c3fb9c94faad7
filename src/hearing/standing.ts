/** The words that work at every question, heard only when the whole message is one of them. English, German, French, Spanish. */
import type { Always } from '#engine/entries.ts';
import { fold, listen } from './words.ts';

/** A longer message is about something else. */
const MOST_WORDS = 14;
const LONGEST = 200;

/** Said around them, and meaning nothing more. */
const POLITE = new Set(
  `please pls plz thanks thank you thx ok okay oh oops hey hi hello sorry just um uh well bitte danke sofort jetzt mal doch merci
  svp stp gracias favor por vale hola now immediately right reseat bot`.split(/\s+/),
);

const WHOLE: Record<Always, string> = {
  back: `back | go back | go back one | one back | one step back | step back | a step back | undo | undo that | undo it | previous | previous question |
    previous step | back one | back one step | take back | take that back | take it back | go one back | i want to go back | i'd like to go back | can i go back | can we go back |
    let me go back | lets go back | let's go back | go to the previous question | last question again | back to the previous question | back to the last question | i want back |
    zuruck | geh zuruck | zuruck gehen | einen schritt zuruck | ein schritt zuruck | eins zuruck | ich mochte zuruck | ich will zuruck | kann ich zuruck | ruckgangig | vorherige frage |
    retour | en arriere | revenir | revenir en arriere | retour en arriere | precedent | question precedente | je veux revenir en arriere | annuler la derniere reponse |
    atras | volver | volver atras | regresar | ir atras | anterior | pregunta anterior | quiero volver | quiero volver atras | un paso atras`,
  again: `again | start again | start over | begin again | start from the beginning | start from the start | from the beginning | from the start | begin from the beginning | from the top |
    start all over | start all over again | all over again | start afresh | start anew | new start | start new | restart this chat | restart the chat | restart the conversation | restart this conversation |
    reset the chat | reset this chat | back to the start | back to the beginning | go back to the start | go back to the beginning | i want to start again | i want to start over | can i start again | can i start over |
    can we start again | can we start over | let's start again | let's start over | lets start over | let me start again | let me start over | i'd like to start again | i would like to start over |
    neu anfangen | von vorn | von vorne | von vorn anfangen | von vorne anfangen | nochmal von vorn | nochmal von vorne | noch mal von vorne | neu beginnen | neustart des chats | ganz von vorne | ich mochte neu anfangen |
    recommencer | recommence | recommencons | depuis le debut | reprendre au debut | tout recommencer | je veux recommencer | repartir de zero |
    empezar de nuevo | empezar otra vez | volver a empezar | comenzar de nuevo | desde el principio | reiniciar el chat | de nuevo | quiero empezar de nuevo`,
  person: `person | a person | human | a human | agent | an agent | operator | real person | a real person | real human | a real human | human being | a human being | live agent | live person | technician | a technician |
    someone | somebody | someone real | a human agent | the desk | help desk | the help desk | service desk | person from the desk |
    mensch | ein mensch | einen menschen | mitarbeiter | ein mitarbeiter | einen mitarbeiter | eine person | techniker | einen techniker | echter mensch | echten menschen | jemand | jemanden |
    une personne | personne | humain | un humain | un technicien | une vraie personne | quelqu'un | un conseiller | un agent |
    una persona | persona | humano | un humano | un agente | un tecnico | persona real | una persona real | alguien`,
  stop: `stop | stop it | stop this | stop here | stop now | stop the chat | stop the conversation | stop that | i want to stop | i'd like to stop | let's stop | lets stop | can we stop | can i stop | i want to stop here | quit | exit | cancel | cancel this | cancel it | cancel that |
    abort | end | end chat | end the chat | end this chat | end this | end conversation | end the conversation | i quit | never mind | nevermind | forget it | forget about it | leave it | i give up | enough |
    stopp | abbrechen | abbruch | beenden | aufhoren | schluss | hor auf | ich mochte aufhoren | ich will aufhoren | ich mochte abbrechen | chat beenden | vergiss es |
    arrete | arreter | arretez | annuler | quitter | fin | terminer | je veux arreter | laisse tomber | laissez tomber | arretons |
    parar | para | pare | detener | cancelar | salir | terminar | quiero parar | dejalo | basta`,
};

/** "Can I talk to a human", "ich möchte mit jemandem sprechen", "je veux parler à quelqu'un", "quiero hablar con una persona". */
const TALK =
  /^(?:(?:no|yes|and|but|hey|so) )*(?:(?:can|could|may|might|shall) (?:i|we|you)|i(?:'d| would)? (?:want|need|like|prefer|wish|have|rather)(?: to)?|i(?:'d| would) (?:like|prefer|rather)(?: to)?|i want|we want to|is it possible to|let me|lemme|would like to|want to|need to|how (?:do|can) i|(?:will|can|could) you|i must|i wanna|i gotta|let's)? ?(?:really )?(?:please )?(?:talk|speak|chat|connect me|put me through|transfer me|pass me|hand me over|get me|give me|get|call|be connected|be transferred|escalate|switch|bring me|find me|reach)(?: (?:directly|now))?(?: (?:to|with|over to|on to|through to))?(?: (?:a|an|the|some|any|your|one of the|one of your|my|another|actual))*(?: (?:real|live|actual|human|living|proper|support|desk|help|helpdesk|it|service|qualified|competent))*(?: (?:person|people|human|humans|human being|agent|agents|operator|technician|technicians|someone|somebody|anyone|anybody|staff|colleague|guy|desk|support|helpdesk|representative|engineer|it|man|woman|member of staff))(?: (?:real|human|else|instead|there|at the desk|from the desk|from it|from support|in person|at it|on the phone|about this|about it|directly))*$/;
const WANT =
  /^(?:i(?:'d| would)? (?:want|need|like|prefer|rather have)(?: to have)?|give me|get me|bring me|send me|send|is there|are there|isn't there|any chance of|i only want|could i have|can i have|can i get|where is) (?:(?:a|an|the|some|any|real|live|actual|human|living|proper) ?)*(?:person|people|human|humans|human being|agent|operator|technician|someone real|somebody real|someone human)(?: (?:there|here|around|available|instead|to talk to|i can talk to|to speak to|i can speak to|to help me|to look at it|to look at this|who can help))*$/;
const TALK_ABROAD =
  /^(?:(?:ich|kann|konnte|darf|mochte|will|muss|wurde|gerne|lieber|mit|einem|einen|einer|eine|echten|richtigen|menschen|mensch|person|mitarbeiter|mitarbeiterin|techniker|jemandem|jemand|bitte|verbinden|sprechen|reden|sie|mich|zu|telefonieren|vom|helpdesk|support|it) ?){3,}$/;
const TALK_FRENCH =
  /^(?:(?:je|puis-je|puis|voudrais|veux|peux|pourrais|aimerais|parler|a|avec|un|une|humain|personne|vraie|quelqu'un|technicien|conseiller|agent|passez|moi|passez-moi|discuter|est-ce|que|s'il|vous|plait|du|support) ?){2,}$/;
const TALK_SPANISH =
  /^(?:(?:quiero|quisiera|puedo|necesito|me|gustaria|prefiero|hablar|con|una|un|persona|humano|alguien|agente|tecnico|real|pasame|paseme|del|soporte|de|verdad) ?){3,}$/;
const WITH_WHOM =
  /\b(?:menschen?|person|mitarbeiter(?:in)?|techniker|jemand(?:em|en)?|humain|personne|quelqu'un|technicien|conseiller|agente?|persona|humano|alguien|tecnico)\b/;
const SPEAKING = /\b(?:sprechen|reden|verbinden|telefonieren|parler|discuter|passez|hablar|pas[ae]me)\b/;

const EXACT = new Map<string, Always>();
for (const [word, ways] of Object.entries(WHOLE))
  for (const way of ways.split('|')) EXACT.set(plain(way), word as Always);

/** Somebody is back and says so. */
const HELLO_AGAIN = /^(hello|hi|hey|hallo|me|here) again$/;

export function hearStanding(text: string): Always | null {
  const trimmed = text.trim();
  if (trimmed === '' || trimmed.length > LONGEST) return null;
  const words = listen(trimmed).map(word => word.text);
  if (words.length === 0 || words.length > MOST_WORDS || HELLO_AGAIN.test(words.join(' '))) return null;
  const whole = EXACT.get(words.join(' '));
  if (whole !== undefined) return whole;
  const kept = words.filter(word => !POLITE.has(word)).join(' ');
  const exact = EXACT.get(kept);
  if (exact !== undefined) return exact;
  return asksForPerson(kept) || asksForPerson(words.join(' ')) ? 'person' : null;
}

/** A wish for a person that stands beside other words: "no idea. just get me a human". */
export function wantsPerson(text: string): boolean {
  const clauses: string[][] = [];
  for (const { text: word, clause } of listen(text.slice(0, MOST_READ))) {
    clauses[clause] ??= [];
    clauses[clause].push(word);
  }
  return Object.values(clauses).some(words => {
    const kept = words.filter(word => !POLITE.has(word));
    return kept.length > 1 && kept.length <= MOST_WORDS && asksForPerson(kept.join(' '));
  });
}
/** Of a longer text, so much of the beginning is looked at for that. */
const MOST_READ = 2000;

function asksForPerson(said: string): boolean {
  if (TALK.test(said) || WANT.test(said)) return true;
  const abroad = TALK_ABROAD.test(said) || TALK_FRENCH.test(said) || TALK_SPANISH.test(said);
  return abroad && WITH_WHOM.test(said) && SPEAKING.test(said);
}

function plain(way: string): string {
  return fold(way).trim().split(/\s+/).join(' ');
}
