import { createHash, randomUUID } from "node:crypto"
import { afterEach, beforeEach, expect, test } from "vitest"
import { record } from "../../../lib/store/audit"
import { commandActor } from "../../../lib/store/audit-actors"
import { verifyAudit } from "../../../lib/store/audit-verify"
import { openStore, type TestStore } from "../../helpers/open-store"

let store: TestStore

beforeEach(async () => {
  store = await openStore()
  for (let i = 1; i <= 6; i += 1)
    await record(store.prisma, {
      ...{ by: commandActor(), action: "patients.list", object: "measure", objectId: `m-${i}` },
      people: [randomUUID(), randomUUID()],
    })
})

afterEach(() => store.close())

test("a log that nobody touched is whole", async () => {
  expect(await verifyAudit(store.prisma)).toEqual({ entries: 6, first: null })
})

test("an empty log is whole", async () => {
  await tamper("delete from audit_entries")

  expect(await verifyAudit(store.prisma)).toEqual({ entries: 0, first: null })
})

test.each([
  ["the first entry taken out", "delete from audit_entries where seq = 1", 2n, "missing"],
  ["one in the middle taken out", "delete from audit_entries where seq = 3", 4n, "missing"],
  ["a detail changed", `update audit_entries set detail = '{"a": 1}' where seq = 4`, 4n, "altered"],
  [
    "another person named as having done it",
    "update audit_entries set actor = 'x' where seq = 2",
    2n,
    "altered",
  ],
  ["a day changed", "update audit_entries set at = at - interval '1 day' where seq = 5", 5n, "altered"],
  [
    "two entries swapped",
    "update audit_entries set seq = case seq when 2 then -3 when 3 then -2 end where seq in (2, 3); update audit_entries set seq = -seq where seq < 0",
    2n,
    "altered",
  ],
  [
    "an entry rewritten with a hash that fits it",
    `update audit_entries set actor = 'x' where seq = 3;
     update audit_entries as e set hash = sha256(prev || convert_to(audit_text(e), 'UTF8')) where seq = 3`,
    4n,
    "not tied to the one before",
  ],
  [
    "one of its people taken out",
    "delete from audit_people where public_id = (select min(p.public_id::text)::uuid from audit_people as p join audit_entries as e using (people_hash) where e.seq = 5)",
    5n,
    "other people",
  ],
])("finds %s", async (_what, sql, seq, fault) => {
  await tamper(sql)

  expect((await verifyAudit(store.prisma)).first).toEqual({ seq, fault })
})

// A second way to the same hash: the text is put together and hashed here, from the columns as they are.
test("the hash of an entry is the SHA-256 of the one before and of every column", async () => {
  const entries = await store.prisma.auditEntry.findMany({ orderBy: { seq: "asc" } })
  let prev = Buffer.alloc(32)
  for (const entry of entries) {
    const field = (text: string | null) => (text === null ? "-," : `${Buffer.byteLength(text)}:${text},`)
    const text = [
      ...[String(entry.seq), entry.at.toISOString(), entry.actor, entry.actorName, entry.roles.join(" ")],
      ...[entry.session, entry.origin, entry.action, entry.object, entry.objectId, entry.purpose],
      ...[entry.outcome, entry.address, String(entry.people)],
      ...[entry.peopleHash && Buffer.from(entry.peopleHash).toString("hex"), JSON.stringify(entry.detail)],
    ]
    const hash = createHash("sha256").update(prev).update(text.map(field).join("")).digest()
    expect(Buffer.from(entry.hash).equals(hash)).toBe(true)
    prev = hash
  }
})

/** What only the owner of the database can do, with the guards taken down. */
async function tamper(sql: string): Promise<void> {
  await store.client.query(`
    alter table audit_entries disable trigger all;
    alter table audit_people disable trigger all;
    ${sql};`)
}
