import { afterAll, beforeAll, describe, expect, test } from "vitest"
import type { Caller } from "../../../lib/access/caller"
import type { CaseAct, Refusal } from "../../../lib/outreach/case-events"
import { workOnCase } from "../../../lib/outreach/work-on-case"
import { openOutreachClinic, type OutreachClinic } from "../../helpers/outreach-clinic"

// Every act on a case in every situation, as the site's role on real Postgres: a person for each pair, brought to the
// situation by Ben, and Ada acts. What is to come of it is read from the decisions in DEVELOPERS.md, People to contact.

const day = "2026-03-13"
const now = new Date(`${day}T09:00:00Z`)

const acts = {
  assign: { kind: "assign", to: null },
  take: { kind: "take" },
  attempt: { kind: "attempt", channel: "phone", outcome: "no answer", againOn: "2026-03-16" },
  decline: { kind: "attempt", channel: "phone", outcome: "reached, declined", againOn: null },
  snooze: { kind: "snooze", until: "2026-03-20" },
  finish: { kind: "close", reason: "done" },
  moved: { kind: "close", reason: "moved" },
  note: { kind: "note" },
  acknowledge: { kind: "acknowledge" },
  reopen: { kind: "reopen" },
  undo: { kind: "take back" },
} as const satisfies Record<string, CaseAct | { kind: "take back" }>

type ActName = keyof typeof acts

const situations = ["open", "theirs", "kept", "urgent", "seen", "snoozed", "closed", "ended"] as const

const asked = "asked not to be contacted"
const unseen = "urgent, not acknowledged"
const before = "done by somebody else"
const none = "nothing to take back"
const calm = "nothing urgent"
const open = "not closed"

type Answer = "done" | Refusal

type Row = readonly [Answer, Answer, Answer, Answer, Answer, Answer, Answer, Answer]

/**
 * The answers, in the order of the situations: "theirs" is Ben's; "kept" asked not to be contacted; "urgent" nobody has seen,
 * "seen" Ben has; "ended" closed itself, so that no reason holds.
 */
const table: Readonly<Record<ActName, Row>> = {
  assign: ["done", "done", "done", "done", "done", "done", "closed", "closed"],
  take: ["done", "taken by somebody else", asked, "done", "done", "done", "closed", "closed"],
  attempt: ["done", "done", asked, "done", "done", "done", "closed", "closed"],
  decline: ["done", "done", asked, "done", "done", "done", "closed", "closed"],
  snooze: ["done", "done", asked, unseen, "done", "done", "closed", "closed"],
  finish: ["done", "done", "done", unseen, "done", "done", "closed", "closed"],
  moved: ["done", "done", "done", "done", "done", "done", "closed", "closed"],
  note: ["done", "done", "done", "done", "done", "done", "done", "done"],
  acknowledge: [calm, calm, calm, "done", "acknowledged already", calm, "closed", "closed"],
  reopen: [open, open, open, open, open, open, "done", "no reason holds"],
  undo: [none, before, none, none, before, before, before, none],
}

const pairs = Object.keys(acts)
  .filter((name): name is ActName => name in acts)
  .flatMap((act) => situations.map((situation, place) => ({ act, situation, answer: table[act][place] })))
const personOf = (pair: { act: string; situation: string }) => `${pair.situation}-${pair.act}`
const spare = ["spare-days", "spare-open"]
const ended = pairs.filter(({ situation }) => situation === "ended").map(personOf)

const potassium = (ids: readonly string[], on: string, value: (id: string) => number) => [
  "patient_id,collected_at,test,value,unit",
  ...ids.map((id) => `${id},${on},potassium,${value(id)},mmol/L`),
]

let clinic: OutreachClinic
let ada: Caller
let ben: Caller

beforeAll(async () => {
  clinic = await openOutreachClinic()
  ada = await clinic.callerFor("Ada", "care-coordinator")
  ben = await clinic.callerFor("Ben", "care-coordinator")
  const people = [...pairs.map(personOf), ...spare]
  const isUrgent = (id: string) => id.startsWith("urgent-") || id.startsWith("seen-")
  await clinic.bringIn(
    {
      patients: [
        "patient_id,given_name,family_name,birth_date,sex,registered_on,site,do_not_contact",
        ...people.map(
          (id) =>
            `${id},Given,${id},1960-05-01,female,2020-01-01,North,${id.startsWith("kept-") ? "yes" : "no"}`,
        ),
      ],
      visits: [
        "visit_id,patient_id,started_on,kind",
        ...people.map((id) => `V-${id},${id},2026-03-01,office`),
      ],
      labs: potassium(people, "2026-03-10", (id) => (isUrgent(id) ? 6.3 : 5.8)),
    },
    new Date("2026-03-11T12:00:00Z"),
  )
  await clinic.bringIn({ labs: potassium(ended, "2026-03-11", () => 4.8) }, new Date("2026-03-12T12:00:00Z"))
  const bens = {
    theirs: acts.take,
    seen: acts.acknowledge,
    snoozed: acts.snooze,
    closed: acts.finish,
  } as const
  for (const pair of pairs)
    for (const [situation, act] of Object.entries(bens))
      if (pair.situation === situation)
        expect(await clinic.work({ patientId: personOf(pair), caller: ben, now, act })).toMatchObject({
          is: "done",
        })
})

afterAll(() => clinic.close())

/** All that is kept of a case. */
async function keptOf(patientId: string) {
  const one = await clinic.caseOf(patientId)
  const where = { action: "case.work", objectId: String(one.id) }
  return { one, entries: await clinic.store.prisma.auditEntry.count({ where }) }
}

const work = (patientId: string, act: CaseAct | { kind: "take back" }, version?: number) =>
  clinic.work({ patientId, caller: ada, now, act, ...(version === undefined ? {} : { version }) })

describe.each(pairs)("$act, of a case that is $situation", (pair) => {
  const patientId = personOf(pair)
  const act = acts[pair.act]

  test("is told of a later version, and not found in a part of the clinic that is not theirs, and changes nothing", async () => {
    const was = await keptOf(patientId)
    const { id, version } = was.one
    const elsewhere = { sites: ["South"], panelOf: null }

    const late = await work(patientId, act, version - 1)
    const far = await workOnCase(clinic.app, {
      ...{ id, version, act, now, on: day, caller: ada, scope: elsewhere, note: null },
    })

    expect(late).toMatchObject({ is: "outdated", version })
    expect(far).toEqual({ is: "gone" })
    expect(await keptOf(patientId)).toEqual(was)
  })

  test(`is answered with ${pair.answer}`, async () => {
    const was = await keptOf(patientId)

    const answer = await work(patientId, act)

    const is = await keptOf(patientId)
    if (pair.answer === "done") {
      expect(answer).toEqual({ is: "done", id: was.one.id, version: was.one.version + 1 })
      expect(is.one.events.slice(0, -1)).toEqual(was.one.events)
      const kind = act.kind === "reopen" ? "reopened" : act.kind
      expect(is.one.events.at(-1)).toMatchObject({ kind, byName: "Ada", onDay: new Date(day) })
      expect(is.entries).toBe(was.entries + 1)
    } else {
      expect(answer).toEqual({ is: "refused", why: pair.answer })
      expect(is).toEqual(was)
    }
  })
})

test.each([
  ["urgent-decline", { state: "open", closeReason: null, acknowledgedBy: null }],
  ["urgent-moved", { state: "closed", closeReason: "moved" }],
  ["open-decline", { state: "closed", closeReason: "declined" }],
  ["snoozed-attempt", { state: "open", snoozedUntil: null, againOn: new Date("2026-03-16") }],
  ["closed-reopen", { state: "open", round: 2, closeReason: null }],
  ["theirs-assign", { assignedTo: null }],
  ["ended-note", { state: "closed", closeReason: "no reason left" }],
])("after it %s is kept as %j", async (patientId, kept) => {
  expect((await keptOf(patientId)).one).toMatchObject(kept)
})

test("nobody of another part of the clinic is taken as the next one", async () => {
  expect(await clinic.take({ caller: ada, now, scope: { sites: ["South"], panelOf: null } })).toBeNull()
  expect(await clinic.take({ caller: ada, now, scope: { sites: ["North"], panelOf: null } })).toMatchObject({
    is: "done",
  })
})

describe("a day to try again", () => {
  const attempt = (outcome: "no answer" | "wrong number", againOn: string | null) =>
    ({ kind: "attempt", channel: "phone", outcome, againOn }) as const
  const snooze = (until: string) => ({ kind: "snooze", until }) as const

  // 11 June 2026 is 90 days after 13 March.
  test.each([
    [attempt("no answer", null), "day is missing"],
    [attempt("no answer", day), "day is not later"],
    [attempt("wrong number", "2026-03-12"), "day is not later"],
    [attempt("no answer", "2026-06-12"), "day is beyond 90 days"],
    [snooze(day), "day is not later"],
    [snooze("2026-06-12"), "day is beyond 90 days"],
  ])("of %j is refused: %s", async (act, why) => {
    const was = await keptOf("spare-days")

    expect(await work("spare-days", act)).toEqual({ is: "refused", why })
    expect(await keptOf("spare-days")).toEqual(was)
  })

  test.each([
    [attempt("wrong number", null), null],
    [attempt("no answer", "2026-06-11"), new Date("2026-06-11")],
  ])("of %j is kept as %j", async (act, againOn) => {
    expect(await work("spare-open", act)).toMatchObject({ is: "done" })
    expect((await keptOf("spare-open")).one).toMatchObject({ state: "open", againOn })
  })
})
