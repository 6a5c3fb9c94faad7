/** Words that open a talk and name nothing. */
const GREETINGS = new Set(
  `hi hello hey hallo moin servus good guten gruss gott morning afternoon evening day tag morgen abend there all team bot everyone
  bonjour salut bonsoir hola buenas buenos dias tardes noches ola ciao yo hiya greetings dear sir madam
  help helpdesk help-desk desk support assistance hilfe aide aidez ayuda auxilio sos please pls plz bitte svp por favor s'il vous plait
  i need me can you could someone anyone somebody anybody is are am here have got a an the to of with for my us we want some
  problem problems issue issues question trouble urgent emergency asap quick now ich brauche habe ein eine j'ai besoin d'aide de un probleme tengo necesito un problema
  thanks thank danke merci gracias test testing ping start it it's hilfe! reseat und mir kann jemand helfen`.split(
    /\s+/,
  ),
);

/** Nothing but greetings and calls for help, or nothing at all. */
export const isGreeting = (words: readonly string[]): boolean => words.every(word => GREETINGS.has(word));
