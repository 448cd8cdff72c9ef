import { randomUUID } from "node:crypto"
import { readFileSync, rmSync, statSync, writeFileSync } from "node:fs"
import path from "node:path"
import { afterEach, beforeEach, describe, expect, test } from "vitest"
import { record } from "../../../lib/store/audit"
import { commandActor } from "../../../lib/store/audit-actors"
import { anchorAudit } from "../../../lib/store/audit-anchors"
import { checkAudit, findLatestCheck } from "../../../lib/store/audit-check"
import { faultSentence } from "../../../lib/store/audit-faults"
import { verifyAudit } from "../../../lib/store/audit-verify"
import { openStore, type TestStore } from "../../helpers/open-store"
import { temporaryFolder } from "../../helpers/temporary-folder"

const now = new Date("2026-10-31T02:00:00Z")
const by = commandActor()

let store: TestStore
let temporary: ReturnType<typeof temporaryFolder>
let dataDir: string
let anchorFile: string

beforeEach(async () => {
  store = await openStore()
  temporary = temporaryFolder()
  dataDir = temporary.folder
  anchorFile = path.join(dataDir, "audit-anchors")
  await recordSome(6)
})

afterEach(async () => {
  await store.close()
  temporary.remove()
})

async function recordSome(entries: number): Promise<void> {
  for (let i = 1; i <= entries; i += 1)
    await record(store.prisma, {
      ...{ by, action: "patients.list", object: "measure", objectId: `m-${i}`, detail: { b: i, aa: "ł" } },
      people: [randomUUID(), randomUUID()],
    })
}

const anchor = () => anchorAudit(store.prisma, { dataDir, now })
const firstFault = async () => (await verifyAudit(store.prisma, dataDir)).first

/** What only the owner of the database can do, with the guards taken down. */
async function tamper(sql: string): Promise<void> {
  await store.client.query(`
    alter table audit_entries disable trigger all;
    alter table audit_people disable trigger all;
    ${sql};`)
}

/** Writes all hashes anew from an entry on, as whoever can do anything with the database would. */
async function rewriteFrom(seq: number): Promise<void> {
  for (let at = seq; at <= 6; at += 1)
    await tamper(
      `update audit_entries as e
       set prev = coalesce((select b.hash from audit_entries as b where b.seq = e.seq - 1), decode(repeat('00', 32), 'hex'))
       where e.seq = ${at};
       update audit_entries as e set hash = sha256(e.prev || convert_to(audit_text(e), 'UTF8')) where e.seq = ${at}`,
    )
}

test("a log that nobody touched is whole, with what was noted of it outside and without", async () => {
  expect(await verifyAudit(store.prisma, dataDir)).toEqual({ entries: 6, anchors: 0, first: null })
  await anchor()
  await recordSome(1)
  await anchor()

  expect(await verifyAudit(store.prisma, dataDir)).toEqual({ entries: 7, anchors: 2, first: null })
})

test("an empty log is whole, and nothing is noted of it", async () => {
  await tamper("delete from audit_entries; delete from audit_people")
  await anchor()

  expect(await verifyAudit(store.prisma, dataDir)).toEqual({ entries: 0, anchors: 0, first: null })
})

describe("without any anchor, finds", () => {
  test.each([
    ["the first entry taken out", "delete from audit_entries where seq = 1", 1n, "missing"],
    ["one in the middle taken out", "delete from audit_entries where seq = 3", 3n, "missing"],
    ["a detail changed", `update audit_entries set detail = '{"a": 1}' where seq = 4`, 4n, "altered"],
    ["another who did it", "update audit_entries set actor = 'x' where seq = 2", 2n, "altered"],
    ["another day", "update audit_entries set at = at - interval '1 day' where seq = 5", 5n, "altered"],
    ["a number of its own", "update audit_entries set seq = -1 where seq = 6", -1n, "altered"],
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
      "an altered entry also where the database's own function was made to hide it",
      `create or replace function audit_text(entry audit_entries) returns text language sql stable as $$ select '' $$;
       update audit_entries set actor = 'x' where seq = 5`,
      5n,
      "altered",
    ],
    [
      "one of its people taken out",
      "delete from audit_people where public_id = (select min(p.public_id::text)::uuid from audit_people as p join audit_entries as e using (people_hash) where e.seq = 5)",
      5n,
      "other people",
    ],
    [
      "all of its people taken out",
      "delete from audit_people where people_hash = (select people_hash from audit_entries where seq = 5)",
      5n,
      "other people",
    ],
    [
      "somebody added to its people",
      "insert into audit_people select people_hash, gen_random_uuid() from audit_entries where seq = 4",
      4n,
      "other people",
    ],
    [
      "people of no entry",
      "insert into audit_people values (sha256('x'), gen_random_uuid())",
      null,
      "people of no entry",
    ],
  ])("%s", async (_what, sql, seq, fault) => {
    await tamper(sql)

    expect(await firstFault()).toEqual({ seq, fault })
  })
})

describe("through the anchors, finds", () => {
  beforeEach(anchor)

  test("the last entry taken out", async () => {
    await tamper(
      "delete from audit_people where people_hash = (select people_hash from audit_entries where seq = 6); delete from audit_entries where seq = 6",
    )

    expect(await firstFault()).toEqual({ seq: 6n, fault: "missing" })
  })

  test("a tail cut off, also once the log has grown again", async () => {
    await tamper(
      "delete from audit_entries where seq > 3; delete from audit_people p where not exists (select from audit_entries e where e.people_hash = p.people_hash)",
    )
    expect(await firstFault()).toEqual({ seq: 4n, fault: "missing" })

    await store.client.query(
      "alter table audit_entries enable trigger all; alter table audit_people enable trigger all; alter table audit_entries enable always trigger audit_chain",
    )
    await recordSome(4)
    expect(await firstFault()).toEqual({ seq: 1n, upTo: 6n, fault: "not what was anchored" })
  })

  test("a log that was emptied", async () => {
    await tamper("delete from audit_entries; delete from audit_people")

    expect(await firstFault()).toEqual({ seq: 1n, fault: "missing" })
  })

  test("a log written anew with hashes that fit, as far as the anchors tell", async () => {
    writeFileSync(anchorFile, "")
    await tamper("update audit_entries set actor = 'x' where seq = 5")
    await rewriteFrom(5)
    expect(await firstFault()).toBeNull()
    await store.close()
    store = await openStore()
    await recordSome(3)
    await anchor()
    await recordSome(3)
    await anchor()
    await tamper("update audit_entries set actor = 'x' where seq = 5")
    await rewriteFrom(5)

    expect(await firstFault()).toEqual({ seq: 4n, upTo: 6n, fault: "not what was anchored" })
  })

  test("a line of them that was altered, or written with another key", async () => {
    const line = readFileSync(anchorFile, "utf8")
    for (const other of [line.replace(/^6/, "5"), line.replace(/.\n$/, "x\n"), "6\n"]) {
      writeFileSync(anchorFile, other)
      expect(await firstFault()).toEqual({ seq: null, fault: "anchor altered" })
    }
    writeFileSync(anchorFile, line)
    expect(await firstFault()).toBeNull()
    rmSync(path.join(dataDir, "secret-key"))
    expect(await firstFault()).toEqual({ seq: null, fault: "anchor altered" })
  })
})

test("anchors are added for nobody but the user of this installation to read", async () => {
  await anchor()
  await anchor()

  expect(readFileSync(anchorFile, "utf8").trim().split("\n")).toHaveLength(2)
  expect(readFileSync(anchorFile, "utf8")).toMatch(/^6 [0-9a-f]{64} 2026-10-31T02:00:00.000Z [0-9a-f]{64}\n/)
  expect(statSync(anchorFile).mode & 0o777).toBe(0o600)
})

test("a check stands in the log and is noted outside; its file cannot be taken away unseen", async () => {
  expect(await findLatestCheck(store.prisma)).toBeNull()
  await checkAudit(store.prisma, { by, dataDir, now })
  expect(await findLatestCheck(store.prisma)).toMatchObject({ isWhole: true, entries: 6, fault: null })
  expect(readFileSync(anchorFile, "utf8")).toMatch(/^7 /)

  rmSync(anchorFile)

  expect(await firstFault()).toEqual({ seq: null, fault: "anchors gone" })
})

test("a check of a broken log says so in the log, and notes nothing of it outside", async () => {
  await tamper("update audit_entries set actor = 'x' where seq = 2")
  await store.client.query(
    "alter table audit_entries enable trigger all; alter table audit_entries enable always trigger audit_chain",
  )
  const state = await checkAudit(store.prisma, { by, dataDir, now })

  expect(state.first && faultSentence(state.first)).toBe(
    "The audit log is broken at entry 2: it is not what was recorded.",
  )
  expect(await findLatestCheck(store.prisma)).toMatchObject({
    isWhole: false,
    fault: "The audit log is broken at entry 2: it is not what was recorded.",
  })
  expect(() => readFileSync(anchorFile)).toThrow(/ENOENT/)
})
