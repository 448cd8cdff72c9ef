import { createHash, randomUUID } from "node:crypto"
import { afterAll, beforeAll, expect, test } from "vitest"
import { changeAndRecord, record, recordRepeated, type AuditEntry } from "../../../lib/store/audit"
import { commandActor, type Actor } from "../../../lib/store/audit-actors"
import { openStore, type TestStore } from "../../helpers/open-store"

const nurse: Actor = {
  ...{ actor: randomUUID(), actorName: 'Noor, "N" Ærø', roles: ["nurse", "auditor"] },
  ...{ session: "ab12", origin: "site", address: "127.0.0.1" },
}

let store: TestStore

beforeAll(async () => {
  store = await openStore()
})

afterAll(() => store.close())

test("an entry carries who, what, when, from where and which people", async () => {
  const people = [randomUUID(), randomUUID()]

  const seq = await record(store.prisma, {
    ...{ by: nurse, action: "patients.list", object: "measure", objectId: "bp-under-140", people },
    detail: { month: "2026-10" },
  })

  const entry = await store.prisma.auditEntry.findUniqueOrThrow({ where: { seq } })
  expect(entry).toMatchObject({
    ...{
      actor: nurse.actor,
      actorName: nurse.actorName,
      roles: nurse.roles,
      session: "ab12",
      origin: "site",
    },
    ...{ action: "patients.list", object: "measure", objectId: "bp-under-140", outcome: "done", people: 2 },
    ...{ address: "127.0.0.1", detail: { month: "2026-10" } },
  })
  expect(Math.abs(Date.now() - entry.at.getTime())).toBeLessThan(60_000)
  const kept = await store.prisma.auditPerson.findMany({
    where: { peopleHash: entry.peopleHash ?? undefined },
  })
  expect(kept.map((one) => one.publicId).sort()).toEqual([...people].sort())
})

test("the same people are kept once, in whatever order they were shown", async () => {
  const people = [randomUUID(), randomUUID(), randomUUID()]
  const before = await store.prisma.auditPerson.count()

  await record(store.prisma, { by: nurse, action: "patients.list", people })
  await record(store.prisma, { by: nurse, action: "patients.list", people: people.toReversed() })

  expect(await store.prisma.auditPerson.count()).toBe(before + 3)
})

test("a command is recorded under the operating-system user", async () => {
  const seq = await record(store.prisma, { by: commandActor(), action: "figures.print" })

  const { actor, origin } = await store.prisma.auditEntry.findUniqueOrThrow({ where: { seq } })
  expect(actor).toMatch(/^command:.+/)
  expect(origin).toBe("command")
})

test("the hash is that of the documented text, computed without the database", async () => {
  await record(store.prisma, {
    ...{ by: nurse, action: "settings.change", object: "setting", purpose: 'łíné\ntwo, "quoted"' },
    detail: { b: 1, aa: null, ключ: "значение" },
  })

  const rows = await store.client.query(
    `select seq::text, at, actor, actor_name, roles, session, origin, action, object, object_id, purpose, outcome, address,
       people::text, encode(people_hash, 'hex') as people_hash, detail::text, prev, hash
     from audit_entries order by audit_entries.seq`,
  )

  let prev = Buffer.alloc(32)
  for (const row of rows.rows) {
    const fields = [
      ...[
        row.seq,
        row.at.toISOString(),
        row.actor,
        row.actor_name,
        row.roles.join(" "),
        row.session,
        row.origin,
      ],
      ...[row.action, row.object, row.object_id, row.purpose, row.outcome, row.address, row.people],
      ...[row.people_hash, row.detail],
    ]
    const text = fields
      .map((field) => (field === null ? "-," : `${Buffer.byteLength(field)}:${field},`))
      .join("")
    const hash = createHash("sha256").update(prev).update(text, "utf8").digest()
    expect(row.prev.equals(prev)).toBe(true)
    expect(row.hash.equals(hash)).toBe(true)
    prev = row.hash
  }
  expect(rows.rows.length).toBeGreaterThan(3)
})

test("a hundred writers at once keep one chain without a gap", async () => {
  const [first] = (await store.client.query("select count(*)::int as n from audit_entries")).rows

  await Promise.all(
    Array.from({ length: 100 }, () =>
      record(store.prisma, { by: nurse, action: "patient.open", people: [randomUUID()] }),
    ),
  )

  const [after] = (
    await store.client.query(
      `select count(*)::int as n, max(seq)::int as last,
         (count(*) filter (where prev is distinct from before))::int as loose
       from (select seq, prev, lag(hash, 1, decode(repeat('00', 32), 'hex')) over (order by seq) as before from audit_entries) as linked`,
    )
  ).rows
  expect(after).toEqual({ n: first.n + 100, last: first.n + 100, loose: 0 })
})

test("a change and its entry are stored together or not at all", async () => {
  const before = await store.prisma.auditEntry.count()
  const change = (fails: "change" | "record") =>
    changeAndRecord(
      store.prisma,
      async (transaction) => {
        await transaction.user.create({ data: { userName: `after ${fails}`, name: "A", roles: [] } })
        if (fails === "change") throw new Error("the change fails")
      },
      () => ({ by: nurse, action: "user.make", people: ["no uuid"] }),
    )

  await expect(change("change")).rejects.toThrow("the change fails")
  await expect(change("record")).rejects.toThrow(/uuid/)

  expect(await store.prisma.user.count({ where: { userName: { startsWith: "after" } } })).toBe(0)
  expect(await store.prisma.auditEntry.count()).toBe(before)
})

test("a look that repeats itself within a minute is one entry, another look is one of its own", async () => {
  const look = (objectId: string, session: string): AuditEntry => ({
    ...{ by: { ...nurse, session }, action: "import.open", object: "import", objectId },
  })
  const before = await store.prisma.auditEntry.count()

  for (let again = 0; again < 5; again++) await recordRepeated(store.prisma, look("1", "s1"))
  await recordRepeated(store.prisma, look("2", "s1"))
  await recordRepeated(store.prisma, look("1", "s2"))

  expect(await store.prisma.auditEntry.count()).toBe(before + 3)
})

for (const table of ["audit_entries", "audit_people"])
  for (const [word, sql] of [
    ["update", `update ${table} set people_hash = null`],
    ["delete", `delete from ${table}`],
    ["truncate", `truncate ${table} cascade`],
  ] as const)
    test(`${word} of ${table} is refused, to the owner as well, and to a replaying session`, async () => {
      await expect(store.client.query(sql)).rejects.toThrow("the audit log is only added to")
      await store.client.query("set session_replication_role = replica")
      await expect(store.client.query(sql)).rejects.toThrow("the audit log is only added to")
      await store.client.query("set session_replication_role = origin")
    })

test("an entry without someone who acted is refused", async () => {
  const insert =
    "insert into audit_entries (actor, actor_name, origin, action, outcome) values (null, '', 'site', 'x', 'done')"

  await expect(store.client.query(insert)).rejects.toThrow(/null value in column "actor"/)
})
