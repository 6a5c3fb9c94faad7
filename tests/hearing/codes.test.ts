import { describe, expect, it, test } from 'vitest';
import { hearAnswer } from '#hearing/answer.ts';
import { hearOpening } from '#hearing/opening.ts';
import { answersIn, codesIn } from '#hearing/tokens.ts';
import { catalogue, openings } from './load.ts';

const prepared = openings();
const names = (text: string, asked = false) => codesIn(text, asked).map(token => token.names[0]);

describe('an error number is heard however it is written', () => {
  it.each([
    'System error 53 has occurred.',
    'it says error 53',
    'ERROR 53!',
    'Error code: 53',
    'error code 0x35',
    '0x80070035',
    'Fehler 53',
    'Systemfehler 53 aufgetreten.',
    'Fehlercode: 0x80070035',
    "erreur système 53 s'est produite",
    'Error de sistema 53.',
    '"Error 0x80070035 The network path was not found"',
  ])('%s', text => {
    expect(codesIn(text).flatMap(token => token.names)).toContain('error:53');
    expect(codesIn(text)).toHaveLength(1);
  });

  it.each([
    ['Stop code 7B', 'stop:123'],
    ['stop code: 0x0000007B', 'stop:123'],
    ['*** STOP: 0x0000007B (0xFFFFF880)', 'stop:123'],
    ['bug check 0x7b', 'stop:123'],
    ['blue screen 0x7B', 'stop:123'],
    ['0x0000012B', 'stop:299'],
    ['File: BCD, Status: 0xc000000e', 'start:3221225486'],
    ['Error code: 0xC0000225', 'start:3221226021'],
  ])('%s', (text, name) => expect(names(text)[0]).toBe(name));
});

describe('a number that is none of Windows’ is left alone', () => {
  it.each([
    'since 53 minutes',
    '21 files are gone',
    'mount error(112): Host is down',
    'I/O error, dev sda, sector 53',
    'PXE-E53',
    'the drive has 53 GB',
    'it is not error 53',
    'kein Fehler 53',
    'error',
    'terror 53',
  ])('%s', text => expect(codesIn(text)).toEqual([]));
});

describe('where a number is asked for', () => {
  const answers = ['gone', 'in-use', 'not-found', 'old', 'refused', 'server-drive', 'other', 'not-sure'].map(
    id => ({ id, label: id, hears: [] }),
  );
  const tokens = {
    'error:3': 'not-found',
    'error:5': 'refused',
    'error:21': 'server-drive',
    'error:53': 'not-found',
    'error:67': 'not-found',
    'error:1219': 'refused',
  };
  const heard = (text: string) => {
    const limits = { optional: false, unit: null, minimum: null, maximum: null };
    const value = hearAnswer({ form: 'choice', answers, ...limits, tokens }, text);
    return value !== null && 'value' in value && 'id' in value.value ? value.value.id : null;
  };

  it.each([
    ['53', 'not-found'],
    ['1219', 'refused'],
    ['it says 1219', 'refused'],
    ['Windows shows 21', 'server-drive'],
    ['system error 67', 'not-found'],
    ['es steht 53 da', 'not-found'],
    ['0x80070035', 'not-found'],
    ['System error 1219 has occurred. Multiple connections to a server', 'refused'],
    // The third answer, and error 3: the same.
    ['3', 'not-found'],
    ['5', 'refused'],
    // No error that we know, so it is a place in the list.
    ['2', 'in-use'],
    ['8', 'not-sure'],
    ['error 4711', 'other'],
    ['4711', 'other'],
  ])('%s is %s', (text, id) => expect(heard(text)).toBe(id));

  it('two that lead apart are asked about, two that lead together are one', () => {
    expect(heard('error 53 and then error 1219')).toBeNull();
    expect(heard('error 53, later error 67')).toBe('not-found');
  });

  it('a date is no error number', () => {
    expect(heard('since 21 March')).toBeNull();
    expect(heard('for 3 days now it does that')).toBeNull();
  });

  it('a lone figure that is another answer’s place as well is never guessed', () => {
    const swapped = { ...tokens, 'error:2': 'not-found' };
    const limits = { optional: false, unit: null, minimum: null, maximum: null };
    expect(hearAnswer({ form: 'choice', answers, ...limits, tokens: swapped }, '2')).toBeNull();
  });
});

describe('a step that is answered with an error number did not help', () => {
  const answers = [
    { id: 'fixed', label: 'Yes, it works now', hears: [] },
    { id: 'no-change', label: 'No change', hears: [] },
    { id: 'could-not', label: "I couldn't do that", hears: [] },
  ];
  const limits = { optional: false, unit: null, minimum: null, maximum: null };
  const heard = (text: string) => hearAnswer({ form: 'choice', answers, ...limits }, text);

  it.each(['System error 85 has occurred.', 'it says 85', 'error 67'])('%s', text =>
    expect(heard(text)).toEqual({ value: { id: 'no-change' } }),
  );
  it('and its place in the list is still its place', () => {
    expect(heard('1')).toEqual({ value: { id: 'fixed' } });
    expect(heard('6')).toBeNull();
    expect(heard('yes, works now, no error 85 any more')).toEqual({ value: { id: 'fixed' } });
  });
});

describe('a path names its share', () => {
  const tokens = {
    'path:\\\\files\\plans': 'plans',
    'path:\\\\files\\plans\\old': 'attic',
    'path:\\\\files\\home': 'home',
  };
  it.each([
    [String.raw`\\FILES\Plans is not accessible`, 'plans'],
    [String.raw`can't open \\files\plans\2026\budget.xlsx`, 'plans'],
    [String.raw`"\\files\plans\old\x" is gone`, 'attic'],
    ['smb://files/plans does not connect', 'plans'],
    ['//files/home on my Linux machine', 'home'],
  ])('%s', (text, answer) => expect(answersIn(tokens, text)?.answer).toBe(answer));

  it('a longer name is another share', () => {
    expect(answersIn(tokens, String.raw`\\files\plans2`)).toBeNull();
    expect(answersIn(tokens, String.raw`\\files\plans-old`)).toBeNull();
  });

  it('is kept as it was typed', () => {
    expect(answersIn(tokens, 'here: smb://Files/Plans/x')?.words.trim()).toBe('//Files/Plans');
  });
});

describe('a letter names its share', () => {
  const tokens = { 'letter:g': 'groups', 'letter:i': 'inbox', 'letter:p': 'plans' };
  it.each([
    'G: is gone',
    "can't reach the shared drive G:",
    String.raw`G:\offers\x.docx does not open`,
    'my g drive has a red cross',
    'the G-drive',
    'the G network drive is missing',
    'network drive G',
    'drive g',
    'Netzlaufwerk G ist weg',
    'G-Laufwerk fehlt',
    'lecteur G introuvable',
    'la unidad G no aparece',
  ])('%s', text => expect(answersIn(tokens, text)?.answer).toBe('groups'));

  it.each([
    'the drive I bought yesterday',
    'which drive i have I cannot say',
    'a drive is missing',
    'Z: is gone',
    'e.g: nothing',
    'G: and P: are gone',
    'http://p:8080/',
  ])('and none in: %s', text => expect(answersIn(tokens, text)).toBeNull());
});

describe('what is on it names a share', () => {
  const tokens = { 'name:ledgers': 'ledgers', 'name:project archive': 'projects' };
  it.each([
    ["can't open the ledgers", 'ledgers'],
    ['the Project Archive is gone', 'projects'],
  ])('%s', (text, answer) => expect(answersIn(tokens, text)?.answer).toBe(answer));
  it('and no longer word does', () => expect(answersIn(tokens, 'the ledgersmith, subledgers')).toBeNull());
});

const codes = Object.entries(catalogue.osCodes);

describe('every number of the catalogue', () => {
  const written = ({ kind, code }: (typeof codes)[number][1]): string[] =>
    kind === 'error'
      ? [`System error ${code} has occurred.`, `error ${code}`, `0x${(0x8007_0000 + code).toString(16)}`]
      : kind === 'stop'
        ? [`stop code ${code.toString(16)}`, `0x${code.toString(16).padStart(8, '0')}`]
        : [`Status: 0x${code.toString(16)}`];

  const cases = codes.flatMap(([id, about]) => written(about).map(text => [text, id, about] as const));

  test.each(cases)('%s is %s, and kept as it stands', (text, id, { symptom }) => {
    const { screen, symptom: heard, candidates } = hearOpening(prepared, text);
    expect(screen?.id).toBe(id);
    expect(text).toContain(screen!.verbatim);
    expect([heard, ...candidates]).toContain(symptom);
  });

  test.each(codes.filter(([, { on_share }]) => on_share !== undefined))(
    '%s on a network drive is a matter of that drive',
    (_id, { code, on_share }) => {
      const { symptom, candidates } = hearOpening(prepared, `network drive G: error ${code}`);
      expect([symptom, ...candidates]).toContain(on_share);
    },
  );

  test('stands once', () => {
    const numbers = codes.map(([, { kind, code }]) => `${kind}:${code}`);
    expect(new Set(numbers).size).toBe(numbers.length);
  });
});

// WINERR: Microsoft Win32 documentation, "System Error Codes"; NTST: ntstatus.h of the mingw-w64 headers; BUGCHK: Microsoft's
// bug check reference. Numbers beside names, as listed there.
describe('numbers and names agree with the published lists', () => {
  test.each<[number, string]>([
    [3, 'ERROR_PATH_NOT_FOUND'],
    [5, 'ERROR_ACCESS_DENIED'],
    [19, 'ERROR_WRITE_PROTECT'],
    [21, 'ERROR_NOT_READY'],
    [23, 'ERROR_CRC'],
    [25, 'ERROR_SEEK'],
    [27, 'ERROR_SECTOR_NOT_FOUND'],
    [31, 'ERROR_GEN_FAILURE'],
    [51, 'ERROR_REM_NOT_LIST'],
    [53, 'ERROR_BAD_NETPATH'],
    [54, 'ERROR_NETWORK_BUSY'],
    [58, 'ERROR_BAD_NET_RESP'],
    [59, 'ERROR_UNEXP_NET_ERR'],
    [65, 'ERROR_NETWORK_ACCESS_DENIED'],
    [67, 'ERROR_BAD_NET_NAME'],
    [85, 'ERROR_ALREADY_ASSIGNED'],
    [86, 'ERROR_INVALID_PASSWORD'],
    [112, 'ERROR_DISK_FULL'],
    [121, 'ERROR_SEM_TIMEOUT'],
    [384, 'ERROR_SMB1_NOT_AVAILABLE'],
    [483, 'ERROR_DEVICE_HARDWARE_ERROR'],
    [1117, 'ERROR_IO_DEVICE'],
    [1127, 'ERROR_DISK_OPERATION_FAILED'],
    [1128, 'ERROR_DISK_RESET_FAILED'],
    [1167, 'ERROR_DEVICE_NOT_CONNECTED'],
    [1201, 'ERROR_CONNECTION_UNAVAIL'],
    [1202, 'ERROR_DEVICE_ALREADY_REMEMBERED'],
    [1203, 'ERROR_NO_NET_OR_BAD_PATH'],
    [1214, 'ERROR_INVALID_NETNAME'],
    [1219, 'ERROR_SESSION_CREDENTIAL_CONFLICT'],
    [1222, 'ERROR_NO_NETWORK'],
    [1240, 'ERROR_LOGIN_WKSTA_RESTRICTION'],
    [1244, 'ERROR_NOT_AUTHENTICATED'],
    [1272, 'ERROR_SMB_GUEST_LOGON_BLOCKED'],
    [1311, 'ERROR_NO_LOGON_SERVERS'],
    [1326, 'ERROR_LOGON_FAILURE'],
    [1327, 'ERROR_ACCOUNT_RESTRICTION'],
    [1328, 'ERROR_INVALID_LOGON_HOURS'],
    [1329, 'ERROR_INVALID_WORKSTATION'],
    [1330, 'ERROR_PASSWORD_EXPIRED'],
    [1331, 'ERROR_ACCOUNT_DISABLED'],
    [1355, 'ERROR_NO_SUCH_DOMAIN'],
    [1393, 'ERROR_DISK_CORRUPT'],
    [1789, 'ERROR_TRUSTED_RELATIONSHIP_FAILURE'],
    [1909, 'ERROR_ACCOUNT_LOCKED_OUT'],
    [2242, 'NERR_PasswordExpired'],
    [2250, 'ERROR_NOT_CONNECTED'],
    [2401, 'ERROR_OPEN_FILES'],
    [2402, 'ERROR_ACTIVE_CONNECTIONS'],
    [2404, 'ERROR_DEVICE_IN_USE'],
    [0x23, 'FAT_FILE_SYSTEM'],
    [0x24, 'NTFS_FILE_SYSTEM'],
    [0x50, 'PAGE_FAULT_IN_NONPAGED_AREA'],
    [0x6b, 'PROCESS1_INITIALIZATION_FAILED'],
    [0x74, 'BAD_SYSTEM_CONFIG_INFO'],
    [0x7a, 'KERNEL_DATA_INPAGE_ERROR'],
    [0x7b, 'INACCESSIBLE_BOOT_DEVICE'],
    [0x77, 'KERNEL_STACK_INPAGE_ERROR'],
    [0xef, 'CRITICAL_PROCESS_DIED'],
    [0xf4, 'CRITICAL_OBJECT_TERMINATION'],
    [0x12b, 'FAULTY_HARDWARE_CORRUPTED_PAGE'],
    [0x154, 'UNEXPECTED_STORE_EXCEPTION'],
    [0xc000000e, 'STATUS_NO_SUCH_DEVICE'],
    [0xc000000f, 'STATUS_NO_SUCH_FILE'],
    [0xc0000098, 'STATUS_FILE_INVALID'],
    [0xc0000102, 'STATUS_FILE_CORRUPT_ERROR'],
    [0xc000014c, 'STATUS_REGISTRY_CORRUPT'],
    [0xc0000218, 'STATUS_CANNOT_LOAD_REGISTRY_FILE'],
    [0xc000021a, 'STATUS_SYSTEM_PROCESS_TERMINATED'],
    [0xc0000225, 'STATUS_NOT_FOUND'],
    [0xc0000428, 'STATUS_INVALID_IMAGE_HASH'],
    [0xc000a000, 'STATUS_INVALID_SIGNATURE'],
    [0xc0210000, 'STATUS_FVE_LOCKED_VOLUME'],
  ])('%d is %s', (code, name) => {
    expect(codes.find(([, about]) => about.name === name)?.[1].code).toBe(code);
  });
});
