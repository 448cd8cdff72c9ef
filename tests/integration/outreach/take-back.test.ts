import { afterAll, beforeAll, expect, test } from "vitest"
import type { Caller } from "../../../lib/access/caller"
import { wholeClinic } from "../../../lib/access/scope"
import { attemptsRule, nextStep } from "../../../lib/outreach/attempts-rule"
import type { ContactChannel } from "../../../lib/domain/outreach-case"
import { Settings } from "../../../lib/domain/settings"
import { isLetterDue } from "../../../lib/store/case-attempts"
import { lastAttempts } from "../../../lib/store/case-list"
import { Prisma } from "../../../lib/store/generated/client"
import { openOutreachClinic, type OutreachClinic } from "../../helpers/outreach-clinic"

// Two people with a high potassium; what Ada and Ben do, and take back, on real Postgres as the site's role.

let clinic: OutreachClinic
let ada: Caller
let ben: Caller

const rule = attemptsRule(Settings.parse({}))
const at = (day: string) => new Date(`${day}T09:00:00Z`)
const called = (channel: ContactChannel) =>
  ({ kind: "attempt", channel, outcome: "wrong number", againOn: null }) as const

beforeAll(async () => {
  clinic = await openOutreachClinic()
  ada = await clinic.callerFor("Ada", "care-coordinator")
  ben = await clinic.callerFor("Ben", "care-coordinator")
  const person = (id: string) => `${id},Given${id},Family${id},1960-05-01,female,2020-01-01`
  await clinic.bringIn(
    {
      patients: [
        "patient_id,given_name,family_name,birth_date,sex,registered_on",
        ...["N", "L"].map((id) => person(id)),
      ],
      visits: [
        "visit_id,patient_id,started_on,kind",
        ...["N", "L"].map((id) => `V-${id},${id},2026-03-01,office`),
      ],
      labs: [
        "patient_id,collected_at,test,value,unit",
        ...["N", "L"].map((id) => `${id},2026-03-10,potassium,5.8,mmol/L`),
      ],
    },
    new Date("2026-03-12T12:00:00Z"),
  )
})

afterAll(() => clinic.close())

test("an attempt that is taken back leaves the case as it was, both lines, and no attempt that counts", async () => {
  const before = await clinic.caseOf("N")
  const work = { patientId: "N", caller: ada, now: at("2026-03-13") }
  await clinic.work({ ...work, act: { ...called("phone"), outcome: "no answer", againOn: "2026-03-16" } })

  expect(await clinic.work({ ...work, act: { kind: "take back" } })).toMatchObject({ is: "done" })

  const { events, version, ...after } = await clinic.caseOf("N")
  expect({ ...after, events: [], version: 0 }).toEqual({ ...before, events: [], version: 0 })
  expect(version).toBe(before.version + 2)
  expect(events.map((line) => line.kind)).toEqual(["opened", "attempt", "take back"])
  expect(events[2]?.undoesId).toBe(events[1]?.id)
  const attempts = await lastAttempts(clinic.app, { scope: wholeClinic, upTo: "2026-03-13" })
  expect(attempts.has("N")).toBe(false)
})

test("what somebody else did, what was done yesterday and what the data did since is not taken back", async () => {
  const refusal = async (caller: Caller, day: string) => {
    const answer = await clinic.work({ patientId: "N", caller, now: at(day), act: { kind: "take back" } })
    return answer.is === "refused" ? answer.why : answer.is
  }
  await clinic.work({ patientId: "N", caller: ada, now: at("2026-03-13"), act: { kind: "take" } })

  expect(await refusal(ben, "2026-03-13")).toBe("done by somebody else")
  expect(await refusal(ada, "2026-03-14")).toBe("done on another day")
  expect(await refusal(ada, "2026-03-13")).toBe("done")
  expect(await refusal(ada, "2026-03-13")).toBe("nothing to take back")
})

test("a letter is due in the store exactly when the rule says that it is next", async () => {
  const tried: ContactChannel[] = []
  for (const channel of ["phone", "phone", "phone", "text", "letter"] as const) {
    await clinic.work({ patientId: "L", caller: ada, now: at("2026-03-13"), act: called(channel) })
    tried.push(channel)
    const [row] = await clinic.store.prisma.$queryRaw<{ due: boolean }[]>(
      Prisma.sql`select ${isLetterDue(rule)} as due from outreach_cases as c where c.patient_id = 'L'`,
    )

    const step = nextStep(
      tried.map((one) => ({ channel: one })),
      rule,
    )
    expect([tried.length, row?.due]).toEqual([tried.length, step === "write a letter"])
  }
  await clinic.work({ patientId: "L", caller: ada, now: at("2026-03-13"), act: { kind: "take back" } })

  const [row] = await clinic.store.prisma.$queryRaw<{ due: boolean }[]>(
    Prisma.sql`select ${isLetterDue(rule)} as due from outreach_cases as c where c.patient_id = 'L'`,
  )
  expect(row?.due).toBe(true)
})
