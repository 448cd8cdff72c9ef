import { afterAll, beforeAll, describe, expect, test } from "vitest"
import type { Caller } from "../../../lib/access/caller"
import { openOutreachClinic, type OutreachClinic } from "../../helpers/outreach-clinic"

// One clinic over three extracts: N's potassium falls and rises, D says no and is very high later, K asked not to be
// contacted, Q is under two numbers that become one.

const records = ["patient_id,given_name,family_name,birth_date,sex,registered_on,do_not_contact,merged_into"]
const person = (id: string, own = "no,") => `${id},Given${id},Family${id},1960-05-01,female,2020-01-01,${own}`
const visits = (...ids: string[]) => [
  "visit_id,patient_id,started_on,kind",
  ...ids.map((id) => `V-${id},${id},2026-03-01,office`),
]
const potassium = (...rows: string[]) => [
  "patient_id,collected_at,test,value,unit",
  ...rows.map((row) => `${row},mmol/L`),
]

let clinic: OutreachClinic
let ada: Caller
let ben: Caller

beforeAll(async () => {
  clinic = await openOutreachClinic()
  ada = await clinic.callerFor("Ada", "care-coordinator")
  ben = await clinic.callerFor("Ben", "care-coordinator")
  await clinic.bringIn(
    {
      patients: [
        ...records,
        person("N"),
        person("D"),
        person("K", "yes,"),
        person("Q"),
        person("OLD"),
        person("P"),
      ],
      visits: visits("N", "D", "K", "Q", "OLD", "P"),
      labs: potassium(
        ...["N,2026-03-10,potassium,5.8", "D,2026-03-10,potassium,5.7", "K,2026-03-10,potassium,5.7"],
        ...["OLD,2026-03-10,potassium,5.7", "P,2026-03-09,potassium,5.6"],
      ),
    },
    new Date("2026-03-12T12:00:00Z"),
  )
})

afterAll(() => clinic.close())

const at = (day: string) => new Date(`${day}T09:00:00Z`)

describe("a look at the data", () => {
  test("opened a case for everybody with a reason, in the order, and for nobody else", async () => {
    const cases = await clinic.store.prisma.outreachCase.findMany({ orderBy: { place: "asc" } })

    expect(cases.map((one) => [one.patientId, one.state, one.tier, one.keptFrom])).toEqual(
      expect.arrayContaining([
        ["N", "open", "soon", null],
        ["K", "open", "soon", "asked not to be contacted"],
      ]),
    )
    expect(cases.map((one) => one.patientId).toSorted()).toEqual(["D", "K", "N", "OLD", "P"])
    expect(await clinic.caseOf("N")).toMatchObject({
      reasons: [{ reason: "potassium-high", isUrgent: false, value: 5.8, endedOn: null }],
      events: [{ kind: "opened", fromState: null, toState: "open", byId: null }],
    })
  })

  test("done again is none", async () => {
    const all = () =>
      clinic.store.prisma.outreachCase.findMany({
        include: { reasons: true, events: true },
        orderBy: { id: "asc" },
      })
    const before = await all()

    await Promise.all([clinic.look(at("2026-03-12")), clinic.look(at("2026-03-12"))])

    expect(await all()).toEqual(before)
  })
})

describe("what people do", () => {
  test("stands in the history and in the audit log, and the later of two who saw the same is told", async () => {
    const { version } = await clinic.caseOf("P")
    const work = (caller: Caller) =>
      clinic.work({
        ...{ patientId: "P", caller, version, now: at("2026-03-13"), note: "Asked for a call after five" },
        act: { kind: "attempt", channel: "phone", outcome: "no answer", againOn: "2026-03-20" },
      })

    const answers = await Promise.all([work(ada), work(ben)])

    expect(answers.map((one) => one.is).toSorted()).toEqual(["done", "outdated"])
    const one = await clinic.caseOf("P")
    expect(one).toMatchObject({ version: version + 1, againOn: new Date("2026-03-20") })
    expect(one.events.map((event) => event.kind)).toEqual(["opened", "attempt"])
    const entries = await clinic.store.prisma.auditEntry.findMany({ where: { action: "case.work" } })
    expect(entries).toMatchObject([{ objectId: String(one.id), people: 1, detail: { channel: "phone" } }])
    expect(JSON.stringify(entries[0]?.detail)).not.toContain("five")
  })

  test("two who take the next one at once get two people, nobody kept from contact, and in the end nobody", async () => {
    const taken = await Promise.all(
      [ada, ben].map((caller) => clinic.take({ caller, now: at("2026-03-13") })),
    )
    const third = await clinic.take({ caller: ada, now: at("2026-03-13") })
    const none = await clinic.take({ caller: ben, now: at("2026-03-13") })

    const ids = [...taken, third].map((one) => (one?.is === "done" ? one.id : null))
    expect(new Set(ids).size).toBe(3)
    const people = await clinic.store.prisma.outreachCase.findMany({
      where: { id: { in: ids.flatMap((id) => id ?? []) } },
    })
    expect(people.map((one) => one.patientId).toSorted()).toEqual(["D", "N", "OLD"])
    expect(none).toBeNull()
  })

  test("who asked not to be contacted is not, and a note that names somebody is not kept", async () => {
    const attempt = {
      kind: "attempt",
      channel: "phone",
      outcome: "no answer",
      againOn: "2026-03-20",
    } as const
    const kept = await clinic.work({ patientId: "K", caller: ada, now: at("2026-03-13"), act: attempt })
    const note = await clinic.work({
      ...{
        patientId: "N",
        caller: ada,
        now: at("2026-03-13"),
        act: { kind: "note" },
        note: "Same street as givenk familyk",
      },
    })

    expect(kept).toEqual({ is: "refused", why: "asked not to be contacted" })
    expect(note).toEqual({ is: "names-person" })
  })

  test("a line of history can be added by the site's role, and changed or taken away by none", async () => {
    const change = (sql: string) => clinic.app.$executeRawUnsafe(sql)

    await expect(change("update outreach_events set note = 'else'")).rejects.toThrow(/permission denied/)
    await expect(change("delete from outreach_events")).rejects.toThrow(/permission denied/)
    await expect(change("delete from outreach_cases")).rejects.toThrow(/permission denied/)
    await expect(change("update outreach_cases set patient_id = 'N'")).rejects.toThrow(/permission denied/)
  })
})

describe("later extracts", () => {
  test("close a case by themselves and say which fact came, and leave alone what was declined", async () => {
    await clinic.work({
      patientId: "D",
      caller: ben,
      now: at("2026-03-13"),
      act: { kind: "close", reason: "declined" },
    })
    await clinic.work({
      patientId: "OLD",
      caller: ben,
      now: at("2026-03-13"),
      act: { kind: "close", reason: "declined" },
    })

    await clinic.bringIn({ labs: potassium("N,2026-03-14,potassium,4.9") }, at("2026-03-15"))

    const n = await clinic.caseOf("N")
    expect(n).toMatchObject({ state: "closed", closeReason: "no reason left", place: null })
    expect(n.reasons).toMatchObject([
      { reason: "potassium-high", endedOn: new Date("2026-03-15"), endedWhy: "by the facts" },
    ])
    expect(n.events.at(-1)).toMatchObject({
      ...{ kind: "closed itself", toState: "closed", why: "no reason left" },
      ended: [{ reason: "potassium-high", factOn: "2026-03-14", value: 4.9 }],
    })
    expect(await clinic.caseOf("D")).toMatchObject({ state: "closed", closeReason: "declined" })
  })

  test("open a case again when a reason returns, or at once when one is urgent", async () => {
    await clinic.bringIn(
      {
        labs: potassium("N,2026-03-16,potassium,5.9"),
        readings: ["patient_id,taken_at,systolic,diastolic,setting", "D,2026-03-16,192,100,office"],
      },
      at("2026-03-17"),
    )

    const n = await clinic.caseOf("N")
    expect(n).toMatchObject({ state: "open", round: 2, closeReason: null, closedAt: null })
    expect(n.events.at(-1)).toMatchObject({ kind: "reopened", why: "reason returned" })
    expect(n.reasons).toHaveLength(2)
    const d = await clinic.caseOf("D")
    expect(d).toMatchObject({ state: "open", tier: "urgent" })
    expect(d.events.at(-1)).toMatchObject({ kind: "reopened", why: "now urgent" })
  })

  test("that make two numbers one carry a refusal to the number that stays", async () => {
    await clinic.bringIn({ patients: [...records, person("OLD", "no,Q")] }, at("2026-03-18"))

    const q = await clinic.caseOf("Q")
    expect(q).toMatchObject({ state: "closed", closeReason: "declined", heldFor: ["potassium-high"] })
    expect(q.events).toMatchObject([{ kind: "opened", toState: "closed", why: "declined" }])
  })

  test("and the days alone wake who was snoozed", async () => {
    await clinic.work({
      patientId: "P",
      caller: ada,
      now: at("2026-03-18"),
      act: { kind: "snooze", until: "2026-03-25" },
    })
    await clinic.look(at("2026-03-24"))
    expect(await clinic.caseOf("P")).toMatchObject({ state: "snoozed" })

    await clinic.look(at("2026-03-25"))
    const p = await clinic.caseOf("P")
    expect(p).toMatchObject({ state: "open", snoozedUntil: null })
    expect(p.events.at(-1)).toMatchObject({ kind: "woken", why: "day has come" })
  })
})
