/** Everyday words that must never be taken for a misspelt word of the trade: "I spoke to Anna" is not smoke. */
export const COMMON_WORDS: readonly string[] = `
a able about above accept account across act action active actual actually add address after afternoon again against age ago
agree ahead air airport alarm alert alive all allow almost alone along already alright also although always am among an and
angry annoying another answer any anybody anymore anyone anything anyway anywhere apart apologies app apparently appear apply
april are area around arrive as ask asked asking at attach attached attempt august automatic available away awful back backed bad
badge bag bank base basic bath battery be beach bean bear beat became because become bed been before began begin behind being
believe bell belong below bend beside best better between beyond big bill birthday bit bite black blame blank blind block blood
blow blue board boat body book boot border boring born boss both bother bottle bottom bought bowl box boy branch bread break
breakfast breath bridge brief bright bring broad broke broken brother brought brown brush budget build building built bunch
bus business busy but buy by cab cabinet call called calling calm came camera can cancel candle canteen cap car card care
careful carry case cash cat catch caught cause center central centre certain chain chair chance change changed channel charge
charger chart chase chat cheap check checked cheers cheese child children choice choose city claim class clean clear clever
client climb clock close closed cloth cloud coat code coffee cold colleague colour column come comes coming command comment
common company compare complete computer concern connect contact contain content contract control convert cook cool copy corner
correct cost could count country couple course court cousin cover coworker crash crazy create credit cross crowd cup current
customer cut daily damage danger dark data date daughter day days dead deal dear december decide deep delay delete delivery
department desk detail did die different difficult dinner direct director dirty disk display distance do doctor document does
dog doing done door dot double doubt down download draft draw dream dress drink drive drop dry due during dust dvd each ear
early earth easily east easy eat edge edit effect eight either electric else email emergency empty end engine english enjoy
enough enter entire error escape especially even evening event ever every everybody everyone everything everywhere exact
exactly example excel except excited excuse exit expect expensive explain express extra eye face fact factory fail fair fall
family famous fan far farm fast fat father fault favourite february feed feel feeling feet fell felt few field fight figure
file fill film final finally find fine finger finish finished fire firm first fish fit five fix flash flat flight floor flow
fly folder folk follow food foot for force forget forgot form forward found four frame free freeze fresh friday friend from
front fruit full fun function funny further game garden gas gate gave general gentle get getting girl give given glad glass go
goes going gold gone good goodbye got grab grand grass great green grey ground group grow guess guest guide guy guys had hair
half hall hand handle happen happened happens happy hard has hat hate have having he head hear heard heart heat heavy held
hello help her here hers hey hi high highly him himself his history hit hold hole holiday home honest hope hopefully horse
hospital host hot hotel hour hours house how however huge human hundred hungry hurry hurt i ice idea if ill image immediately
important in inch include indeed info information inside instead interest internet into invoice is issue it item its itself
january job john join joke july jump june just keep keeps kept key keyboard kick kid kill kind kitchen knew know known lab lady
land language laptop large last late lately later laugh law lay lead learn least leave led left leg lend length less lesson let
letter level lie life lift light like likely limit line link list listen little live load local location lock locked log
login long look looked looking looks loose lose loss lost lot lots loud love low luck lucky lunch machine mad made mail main
make makes making man manage manager manual many map march mark market matter may maybe me meal mean means meant meanwhile meet
meeting member memory men mention menu mess message met middle might mile milk million mind mine minute minutes mirror miss
missing mistake mobile mode model moment monday money monitor month months mood moon more morning most mother mouse mouth move
moved much music must my myself name near nearly neck need needed needs neither nervous net network never new news newspaper
next nice night nine no nobody noise none noon nor normal normally north nose not note nothing notice november now number
october odd of off offer office often oh ok okay old on once one ones only onto open opened or orange order ordinary other
others our ours out outside over own packed lacked pack page paid pain paint pair panel panic paper paragraph parent park part party pass
password past path pay people per perfect perhaps person phone photo pick picture piece place plan plane plant plate play
please plenty plug plus pocket point police poor pop popped port position possible post pound power prefer present press
pressed pretty previous price print printer private probably problem process produce product program project promise proper
properly provide public pull purchase push put quarter question quick quickly quiet quite race radio rain raise ran random
range rather reach read reader reading ready real really reason receive recent recently recover red refuse regards regular
remain remember remote remove rent repair repeat reply report request require research reset respond rest restart result return
rice rich ride right ring rise river road rock role roof room round row rule run running rush sad safe said sale sales same
sand sat saturday save saw say saying says scan school science screen sea search seat second secretary section security see
seem seems seen self sell send sense sent separate september serious seriously serve service session set seven several shake
shall shape share she sheet shelf shift ship shirt shock shoe shop short should shoulder shout show showed showing shown shows
shut sick side sign signal silly silver similar simple since sing single sir sister sit site six size skin sleep slide slight
slightly slow small smart smell smile smoke smooth snow so soap social soft software some somebody somehow someone something
sometimes somewhere son song soon sorry sort sound soup source south space spare speak special speed spell spend spent spoke spoken
sport spot spring square stack staff stage stair stand star start started starting starts state station stay steal step stick
still stock stole stolen stone stood stop stopped store storm story strange stream street string strong student study stuff
stupid style subject such sudden suddenly sugar suit summer sun sunday super supply support suppose sure surely surprise sweet
swim switch system table take taken takes taking talk tall tape task taxi tea teach team tell ten term test text than thank
thanks that that's the their them then there these they thick thin thing things think third this those though thought thousand
three threw through throw thursday ticket tie till time times tiny tired title to today together told tomorrow tonight too took
tool top total touch toward town track trade traffic train training trash travel treat tree trick tried trip trouble truck true
trust truth try trying tuesday turn turned tv twelve twenty twice two type under understand unfortunately unit university
unless until up update upon upset urgent us use used useful user uses using usual usually vacation valley value various very
via video view village visit voice wait waiting walk wall want wanted wants war warm warn warning was wash waste watch watched
water way we weak wear weather web wednesday week weekend weeks weight weird welcome well went were west wet what whatever
when where whether which while white who whole whose why wide wife will wind window windows winter wire wise wish with within
without woman women wonder wood word words work worked working works world worried worry worse worst worth would write writing
written wrong wrote yard yeah year years yellow yes yesterday yet you young your yours yourself zero zone
shared stock smoker spoken stroke snake burned burger burning steak steam spark park mark dark bark lick lock luck chick cheque
nick pick sick tick trick brick quick kick clinic classic flick slick stack slack slot slope blow glow plow show shown snow
slam slim slip slap swollen sworn spill spell still skill chill drill grill grind grand brand bland blend friend trend spend
rage cage page wage sage stage leaving leaf leak lead beak weak peak speak sneak bleak break cream dream dropping shopping
hopping mapping shipping tipping topping wiping typing hiking biking liking losing closing using missing kissing passing
wishing grow grown growing glow glowing throw thrown flow blow tap tape taper rap wrap trap snap clap flap slap lap nap map cap gap dishes fishing washing flooding blooding reading heading hearing clearing bearing wearing tearing sharing caring
nicht noch nach macht mache mach meine mein meiner meinen dein seine ihr ihre unser unsere eine einen einer eines ein der die
das den dem des ist sind war wird werden wurde kann konnte will soll muss habe haben hat hatte ich du er sie wir mich mir dich
auf aus bei mit von vom zum zur und oder aber wenn weil dass auch nur schon sehr hier dort heute gestern morgen jetzt immer
alle alles etwas nichts kein keine keinen seit bitte danke hallo guten tag brauche braucht brauchen gebraucht
pas plus mon ma mes ton son sa ses notre votre leur les des une dans sur avec pour par est sont fait fais faire peut veux dois
avoir ont suis etre cette quand mais donc tout tous toute rien jamais depuis bonjour merci svp aujourd hier demain
mi mis tu su sus nuestro el la los las un una unos de del al con por para es son esta estan hace hacer puede puedo quiero debo
tengo tiene cuando pero todo todos nada nunca desde hola gracias favor hoy ayer ahora manana
buro buero bureau bureaus oficina casa hause zuhause heim maison
`
  .trim()
  .split(/\s+/);
