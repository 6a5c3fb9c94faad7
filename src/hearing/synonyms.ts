/**
 * Ways to say one thing, in English, German, French and Spanish. The catalogue's phrases and the person's words both pass through
 * here, so that "thumb drive not picked up" is heard as "usb stick not recognised" without anyone writing it down.
 */

/** Things one can point at. A "not" never takes them away; "no drive" says that it is missing. */
export const THINGS: Record<string, string> = {
  computer: `pc | laptop | notebook | desktop | computer | machine | workstation | tower | mac | imac | cpu | ultrabook
    rechner | computer | arbeitsplatzrechner | ordinateur | portable | poste | ordi | ordenador | portatil | computadora | equipo | torre`,
  drive: `hdd | ssd | nvme | m2 | m 2 | hard drive | hard disk | harddrive | harddisk | hard disc | disk | disc drive | drive | storage drive | storage device | solid state
    festplatte | platte | laufwerk | datentrager | disque | disque dur | disque ssd | lecteur | disco | disco duro | unidad | unidad de disco
    nvme drive | nvme ssd | ssd drive | m 2 ssd | m 2 drive | hd | platter`,
  second: `second drive | second disk | second ssd | second hard drive | second hdd | secondary drive | secondary disk | secondary hdd | secondary ssd | secondary hard drive | second internal drive |
    other drive | other disk | data drive | data disk | data partition | storage partition | data volume | internal drive | internal disk | internal ssd | internal hard drive | internal hdd | internal nvme | built in disk | built in drive | build in disk |
    disk 1 | disk 2 | drive 1 | drive 2 | two drives | two disks | drive inside | disk inside | second nvme | secondary nvme | internal drives | one of my drives | one of my disks | one of my two disks | one of my two drives |
    zweite festplatte | zweites laufwerk | zweite ssd | interne festplatte | disque interne | deuxieme disque | deuxieme disque dur | second disque | segundo disco | segundo disco duro | disco interno`,
  usb: `usb | usb stick | memory stick | thumb drive | thumbdrive | pen drive | pendrive | flash drive | flashdrive | usb key | usb drive | usb disk | usb hard drive | usb hdd | stick | usb flash |
    external drive | external disk | external hard drive | external hard disk | external hdd | external ssd | external | portable drive | portable hdd | portable disk | portable hard drive | backup drive | backup disk | ext hdd | ext drive |
    external usb drive | external usb hard drive | sd card | memory card | micro sd | microsd | card reader | sd | usb hd | jump drive | my passport drive | camera card | external storage | usb memory |
    usb platte | externe festplatte | externe platte | externe ssd | speicherkarte | speicherstick | sd karte | cle usb | cle | disque dur externe | disque externe | carte sd | carte memoire |
    memoria usb | disco externo | disco duro externo | tarjeta sd | tarjeta de memoria | lapiz usb | usb laufwerk | wechseldatentrager | unidad usb | unidad externa | zip drive`,
  share: `network drive | shared drive | mapped drive | network share | file share | fileshare | share | shared folder | file server | fileserver | network folder | network location | server drive | team drive | company drive | group drive |
    department drive | common folder | common drive | public drive | team folder | team share | shared directory | network path | shared files | share drive | shared network drive | mapped network drive | network disk | net drive | server share | smb share | nas share | networkdrive | shared file |
    netzlaufwerk | gemeinsames laufwerk | freigabe | netzwerklaufwerk | netzwerkfreigabe | gruppenlaufwerk | lecteur reseau | dossier partage | partage reseau | disque reseau | serveur de fichiers | serveur | unidad de red | carpeta compartida | recurso compartido | disco de red | servidor de archivos |
    \\\\path | project drive | home drive | personal drive | drive letter | marketing share | project share | office drive | department share | company share | department folder | project folder on server`,
  system: `system drive | windows drive | systemlaufwerk`,
  server: `server | servers | server room | serverraum | servidor | rack | disk shelf | enclosure | storage cabinet`,
  nas: `nas | synced storage box`,
  array: `raid | array | disk array | virtual disk | logical drive | storage pool | raid controller | raid volume | raid set | verbund | raid verbund | mirror | md0 | storage array | degradedarray | raid 0 | raid 1 | raid 5 | raid 6 | raid 10 | raid1 | raid5 | raid6 | raid10 | zpool | vdisk | hot spare | disk group`,
  newdrive: `new drive | new hard drive | new hard disk | new ssd | new disk | new hdd | new nvme | new m 2 | new m2 drive | new internal drive | new internal ssd | new one | new hd | new drives | new disks | bigger drive | bigger disk | bigger ssd |
    bigger hard drive | bigger hdd | larger drive | larger disk | larger one | bigger one | larger ssd | replacement drive | replacement disk | replacement ssd | neue festplatte | neue ssd | neue platte | neues laufwerk | neue hdd | nouveau disque | nouveau disque dur |
    nouveau ssd | nouvel ssd | disco nuevo | nuevo disco | nuevo disco duro | disco duro nuevo | nuevo ssd | ssd nuevo | new second drive | new second disk | new second ssd`,
  file: `file | document | doc | docx | xlsx | pdf | spreadsheet | slide deck | picture | photo | pic | jpeg | video | movie | word document | word doc | word file | excel file | excel sheet | jpg | foto | zip archive | archive file | thesis |
    datei | dateien | dokument | dokumente | bild | bilder | fichier | photos | archivo | documento | fotos | work files | project files | files and folders | data files | excel workbook | workbook | powerpoint`,
  folder: `folder | directory | ordner | verzeichnis | dossier | carpeta | subfolder`,
  firmware: `bios | uefi | firmware | cmos | boot menu | bios menu | bios setup`,
  os: `windows | operating system | os | linux | betriebssystem | systeme exploitation | sistema operativo | windows 10 | windows 11 | ubuntu | macos`,
  bootdevice: `boot device | bootable device | boot disk | boot drive | bootable disk | bootable drive | bootable media | boot media | boot medium | startup disk | system disk | boot disc | systemdiskette | bootfahiges gerat | startlaufwerk | bootlaufwerk |
    disque de demarrage | peripherique de demarrage | dispositivo de arranque | disco de arranque | proper boot device | boot diskette`,
  ram: `ram | memory module | memory upgrade | ram module | dimm | arbeitsspeicher | memoria ram | ram stick | barrette | memory`,
  gpu: `graphics card | gpu | video card | grafikkarte | carte graphique | tarjeta grafica`,
  psu: `power supply | psu | netzteil | alimentation | fuente de alimentacion`,
  board: `motherboard | mainboard | carte mere | placa base | system board`,
  fan: `fan | fans | lufter | ventilateur | ventilador | cooler`,
  light: `light | led | lamp | lights | leds | lampe | voyant | luz | hdd led | drive light | disk light | activity light`,
};

/** What happens to them. A "not" turns each into its contrary. */
export const HAPPENINGS: Record<string, string> = {
  start: `boot | bootup | boot up | start | start up | startup | starts up | turn on | switch on | power on | power up | powered on | turning on | switching on | turned on | switched on | fire up | come up |
    start | startet | starten | hochfahren | bootet | booten | fahrt hoch | einschalten | demarre | demarrer | demarrage | allume | arranca | arrancar | encender | enciende | inicia | iniciar | power button | press power | reboot | restart | rebooted | restarted | neustart | redemarrage | reinicio`,
  noload: `not load | not loading | never load | ladt nicht | not loaded`,
  nostart: `not boot | not boot up | not start | not start up | not turn on | not come up | does not power on | stuck at boot | stuck on logo | hangs at logo | boot loop | fails at startup | start up fail | startup fail | boot fail | boot failure | not booting into |
    startet nicht | bootet nicht | fahrt nicht hoch | ne demarre pas | ne demarre plus | demarre plus | no arranca | no enciende | no inicia | never get past logo | does not go past`,
  absent: `missing | gone | vanish | disappear | not show | not show up | not see | not recognised | not recognise | not recognized | not recognize | not recognising | not recognizing | not detect | not find | not found | not there | not here | not visible | not appear | not list | not pick up | not mount |
    no sign of | invisible | undetected | unrecognised | unrecognized | drop out | drops out | disconnect | nothing happen | not available | unavailable | not reach | not connect | not reconnect | offline | red x | red cross | not get to | not get into | not get onto | not reachable | unreachable | unknown device | not be found | not be detected | not located |
    not existing | not exist | nowhere | not register | not identify | not exist anymore | dropped off | not in explorer | not in the list | not in this pc | shows nothing | not in bios | lost connection | not loading up | keeps dropping | dead | not work | stop working | stopped working | not working |
    fehlt | verschwunden | weg | nicht erkannt | erkennt nicht | nicht angezeigt | nicht da | nicht mehr da | nicht gefunden | findet nicht | nicht erreichbar | nicht verbunden | nicht verfugbar | keine verbindung | nicht sichtbar |
    disparu | disparait | apparait pas | apparait plus | pas reconnu | pas reconnue | reconnait pas | non reconnu | non detecte | pas detecte | introuvable | pas trouve | non trouve |
    desaparecido | desaparecio | no aparece | no reconoce | no se reconoce | no detecta | no se detecta | no encuentra | no se encuentra | no encontrado | no disponible | no puedo conectar | falta | no reconocido | no ve`,
  noise: `click | clicking | clicks | clunk | grind | scrape | scratch | whir | whine | squeal | squeak | buzz | rattle | tick | ticking | tic | tick tick | tic tic | clack | knock | noise | noisy | sound | hum | screech | thud | thump | scraping noise | clic | clics | click click | makes noise | coffee grinder | spin up and down | spin up and stop | spin down |
    klickt | klicken | klackert | klackern | klack | rattert | gerausch | gerausche | kratzt | schleift | pfeift | surrt | brummt | laut | lautes |
    bruit | claquement | grince | gratte | clic clic | cliquetis | bourdonne | ruido | ruidos | chirria | chasquido | raspa | zumbido | weird noise | strange noise | funny noise | loud noise | making noise | spinning up and stopping`,
  press: `click on | click ok | everything i click | anything i click | click anything | double click | right click | left click | mouse click | clicked on | clicking on | every click | each click | click here | sound card | no sound | sounds like it | sound good`,
  beep: `beep | beeping | beeps | piept | pita | bipe | beep sound | buzzer | alarm | alarme | alarma | alert tone`,
  slow: `slow | slowly | slowness | sluggish | crawl | snail | takes forever | take forever | takes ages | take ages | takes long | take long | takes so long | lag | laggy | lagging | stutter | hang | hangs | freeze | froze | frozen | freezes | freezing | unresponsive | not responding | treacle | molasses | takes minutes | forever | ages | taking long | very long | snails pace | unusable | eternity | bogged | spinning wheel | hourglass | beachball | takes a while | takes two minutes | take minutes |
    langsam | hangt | ewig | lahm | trage | lent | lente | lents | rame | ramer | lenteur | lento | lenta | lentisimo | colgado | tarda | se congela | bogged down | long time | painfully slow | takes too long | loading times | disk usage | disk activity | performance`,
  busy: `100% | 100 % | 100 percent | hundred percent | constantly on | always on | solid on | on all the time | never goes off | never stops blinking | light on | led solid | led on | blinking constantly | goes off never | stays on`,
  full: `full | out of space | out of storage | out of disk space | no space | not enough space | not enough free space | insufficient space | low on space | low space | low disk space | running out of space | runs out of space | space left | no room | no more room | free up space | bytes free | gb free | mb free | gb left | mb left | low storage | more storage | more space | almost full | nearly full | needs space | disk space |
    voll | kein speicherplatz | speicherplatz | kein platz | plein | pleine | plus d'espace | espace insuffisant | espace disque | sature | lleno | llena | espacio | sin espacio | no hay espacio | quota | filled up | filled | run out of | clean up | max capacity | at capacity | red bar`,
  readonly: `read only | readonly | write protect | write protection | write protected | writeprotected | only read | not write | lock for writing | locked for writing | not writable | unwritable | write lock | protected |
    schreibgeschutzt | schreibschutz | nur lesen | protege en ecriture | lecture seule | protegee en ecriture | protegido contra escritura | protegida contra escritura | solo lectura | let me look but not`,
  noaccess: `not access | no access | not have access | not accessible | inaccessible | not accessed | have no access | access problem | impossible d'acceder | aucun acces | pas acces | plus accessible | pas accessible | no puedo acceder | kein zugriff | keinen zugriff | not able to access`,
  noread: `not read | not be read | not being read | nicht lesen | nicht gelesen | pas lire | no lee`,
  nosave: `not save | not copy | not paste | not delete | not store | not put | not modify | not edit | not move | not rename | kann nicht speichern | nicht speichern | pas enregistrer | no puedo guardar | not be saved`,
  denied: `access denied | access is denied | denied | permission denied | no permission | not have permission | no right | no access right | not allow | unauthorised | unauthorized | not authorised | not authorized | refuse | forbidden | need access | need permission | get access | grant access | give me access | needs permission | permission | not have right | locked out | rights | logon failure |
    zugriff verweigert | keine berechtigung | berechtigung | keine rechte | verweigert | acces refuse | pas les droits | droits | autorisation | permission refusee | acceso denegado | no tengo permiso | sin permiso | permiso | denegado`,
  corrupt: `corrupt | damage | gibberish | garble | unreadable | not readable | broken file | broken | scrambled | raw | cyclic redundancy | crc | strange characters | weird characters | repair the file | cannot be repaired | half grey | not play |
    beschadigt | defekt | kaputt | unlesbar | corrompu | corrompus | abime | illisible | endommage | danado | danados | corrupto | corruptos | ilegible | corrompido`,
  noopen: `not open | not be opened | fails to open | offnet nicht | nicht offnen | ne s'ouvre pas | pas ouvrir | no abre | no se abren | no se abre`,
  format: `format | formatting | formatted | formatieren | formatiert | formater | formatear | initialise | initialize | not initialized | not initialised`,
  failing: `about to fail | going to fail | fail soon | imminent | predicted failure | predictive failure | failure predicted | predict failure | predicted | dying | on its way out | likely to fail | near failure | end of life | needs replacing | need to be replaced | about to die | failure imminent | bad health | reliability | degraded reliability |
    bald ausfallen | fallt bald aus | ausfall droht | droht | imminente | inminente | va tomber en panne | va a fallar | tomber en panne`,
  smart: `smart | smart error | smart status | smart warning | smart failure | smart fehler`,
  badsector: `bad sector | bad block | reallocated | pending sector | reallocated sector | uncorrectable error | defekte sektoren | secteurs defectueux | sectores defectuosos | media error | medium error`,
  health: `health | wear | lifetime | percentage used | life left`,
  warn: `warning | warn | alert | popup | pop up | notification | message says | meldung | warnung | avertissement | avertit | aviso | advertencia | caution`,
  failed: `failed | fail | failure | faulty | fault | crash | broke down | ausgefallen | ausfall | en panne | panne | defaillant | fallado | averiado | lost a disk | lost a drive | lost two disk`,
  degraded: `degraded | degrade | critical state | not redundant | redundancy lost | rebuild | rebuilding | resync | degradiert | degradee | degradado`,
  hot: `hot | overheat | overheating | heat | temperature | temp | warm | boiling | scorching | burning hot | too hot | thermal | degrees | celsius | throttling | burns my | melting | toasty | overheats | heats up | cooking | roasting |
    heiss | uberhitzt | zu warm | warm | temperatur | chauffe | surchauffe | chaud | chaude | temperature | caliente | calienta | sobrecalienta | temperatura`,
  shutoff: `shut off | shuts down | shut down | turns off | turn itself off | switches off | power off | powers off | geht aus | schaltet ab | s'eteint | se apaga | turns itself off | switch itself off`,
  fitted: `installed | install | fitted | fit | added | add | put in | built in new | swapped | swap | replaced | replace | cloned | clone | moved the ssd | moved the drive | moved the disk | newly | installing | adding | swapping | replacing | eingebaut | einbau | ajoute | ajout | installe | instalado | anadido | cambiado | cambiar`,
  since: `since | after | ever since | afterwards | since then | nach | nach dem | apres | depuis | despues | desde`,
  deleted: `delete | erase | wipe | remove | trash | recycle bin | overwrite | overwrote | overwritten | saved over | by mistake | by accident | accidentally | unintentionally | recycling bin | formatted by mistake | geloscht | aus versehen | versehentlich | papierkorb | uberschrieben | supprime | efface | par erreur | corbeille | borrado | borre | eliminado | por error | sin querer | papelera`,
  restore: `restore | recover | get back | want back | need back | undelete | previous version | older version | old version | yesterdays version | yesterday's version | from backup | backup restore | bring back | wiederherstellen | recuperer | restaurer | recuperar | restaurar | files back | data back | file back | photos back | get it back`,
  lost: `lost | lose | losing | verloren | perdu | perdido | misplaced`,
  empty: `empty | blank | leer | vide | vacio | vacia`,
  key: `recovery key | bitlocker | bit locker | bitlocker key | encryption key | recovery password | 48 digit | 48 digits | 48 numbers | filevault | long number | drive encryption | decrypt | encrypted | encryption recovery | recovery screen | encryption number | unlock the drive | unlock the disk | key id | decryption key | unlock key |
    wiederherstellungsschlussel | schlussel | cle de recuperation | cle bitlocker | clave de recuperacion | clave de bitlocker | verschlusselung`,
  readerror: `read error | disk read error | reading error | error reading | not read boot disk | read failure | disk read failure | error occurred reading | lesefehler | datentrager lesefehler | fehler beim lesen | erreur de lecture | error de lectura | io error | i o error | not read the disk | not read the drive | not read from hard disk | not read from disk | inaccessible boot device | unmountable boot volume`,
  loader: `bootmgr | ntldr | boot manager | bootloader | boot loader | grub | winload | boot configuration data | bcd | boot configuration | boot files | boot record | mbr | bootmanager | grub rescue | initramfs | windows loader`,
  repairloop: `automatic repair | startup repair | repair loop | repair your pc | needs to be repaired | automatische reparatur | reparation automatique | reparacion automatica | not load correctly`,
  netboot: `pxe | media test failure | check cable | checking media | start from network | boot from network | network boot | boot from lan`,
  insert: `insert | insert boot | press any key | press a key | insert system disk | einlegen | inserer`,
  question: `question mark folder | folder with question mark | blinking folder | flashing folder | question mark`,
  login: `credentials | username | user name | username and password | user name and password | asks for password`,
};
