/**
 * The fields of a ticket that a person can fill by answering. A flow's question names the one it fills (`fills: data.copy`).
 * `always` fields must be settled before any scripted hand-over; the rest only where a case needs them.
 */
export const FIELD_TABLE = {
  'place.site': { label: 'Site', always: true },
  'place.room': { label: 'Room, and who has the device', always: true },
  'contact.way': { label: 'How to reach the person (not on the affected machine)', always: true },
  'contact.when': { label: 'When to reach the person', always: false },
  'device.kind': { label: 'Device', always: true },
  'device.writing-on': { label: 'Writing on the affected machine', always: true },
  'device.tag': { label: 'Asset tag or host name', always: false },
  'device.os': { label: 'Operating system', always: false },
  'drive.kind': { label: 'Drive: spinning or solid-state', always: false },
  'drive.where': { label: 'Drive: inside, USB or network', always: false },
  'drive.capacity': { label: 'Drive: capacity and used', always: false },
  'drive.serial': { label: 'Drive: serial number', always: false },
  'power.now': { label: 'Power state now', always: true },
  message: { label: 'Message on the screen, word for word', always: false },
  'history.first': { label: 'First time or again', always: true },
  'history.last-good': { label: 'Last good start', always: false },
  'history.changed': { label: 'What changed before', always: true },
  'history.tried': { label: 'What anyone already tried', always: true },
  'data.missed': { label: 'What would be missed', always: true },
  'data.copy': { label: 'Where else it is, and was it seen there', always: true },
  'data.remake': { label: 'Could it be made again', always: false },
  'data.deadline': { label: 'Needed by', always: false },
  'data.owner': { label: 'Whose data', always: false },
  'data.sensitive': { label: 'How sensitive', always: false },
  'data.consent': { label: 'Consent to look, copy, wipe', always: false },
  'encryption.on': { label: 'Encrypted', always: false },
  'encryption.key': { label: 'Where the recovery key is kept (never the key)', always: false },
  'encryption.identifier': { label: 'Key identifier', always: false },
  'impact.who': { label: 'Who is affected', always: true },
  'impact.work': { label: 'Can they work', always: true },
  'impact.loan': { label: 'Loan machine', always: false },
} as const satisfies Record<string, { label: string; always: boolean }>;

export type Field = keyof typeof FIELD_TABLE;
export const FIELDS = Object.keys(FIELD_TABLE) as [Field, ...Field[]];
