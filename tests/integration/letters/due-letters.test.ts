import { afterAll, beforeAll, describe, expect, test } from "vitest"
import type { Caller } from "../../../lib/access/caller"
import { wholeClinic, type Scope } from "../../../lib/access/scope"
import type { ContactChannel } from "../../../lib/domain/outreach-case"
import { recordLetters } from "../../../lib/outreach/record-letters"
import { countDueLetters, listDueLetters } from "../../../lib/store/due-letters"
import { openOutreachClinic, type OutreachClinic } from "../../helpers/outreach-clinic"

// All but two were tried three times by two channels: N once, F three times by phone alone. Of those, P and Q prefer letters,
// and nobody has called them. U is urgent, K asked not to be contacted, V has a visit soon, W waits, S is snoozed, C is closed.

const on = "2026-03-12"
const now = new Date(`${on}T09:00:00Z`)
const rule = { attempts: 3, channels: 2 }
const ids = ["A", "B", "N", "F", "P", "Q", "U", "K", "V", "W", "S", "C"]

let clinic: OutreachClinic
let ada: Caller

beforeAll(async () => {
  clinic = await openOutreachClinic()
  ada = await clinic.callerFor("Ada", "care-coordinator")
  const columns =
    "patient_id,given_name,family_name,birth_date,sex,registered_on,preferred_contact,do_not_contact,site"
  const person = (id: string) => {
    const contact = ["P", "Q"].includes(id) ? "letter" : "phone"
    const about = `${contact},${id === "K" ? "yes" : "no"},${id === "B" ? "South" : "North"}`
    return `${id},Given${id},Family${id},1960-05-01,female,2020-01-01,${about}`
  }
  await clinic.bringIn(
    {
      patients: [columns, ...ids.map(person)],
      visits: ["visit_id,patient_id,started_on,kind", ...ids.map((id) => `V-${id},${id},2026-03-01,office`)],
      labs: [
        "patient_id,collected_at,test,value,unit",
        ...ids.map((id) => `${id},2026-03-10,potassium,${id === "U" ? "6.3" : "5.8"},mmol/L`),
      ],
      appointments: ["appointment_id,patient_id,starts_at,status", "AP-V,V,2026-03-16,booked"],
    },
    now,
  )
  for (const id of ["A", "B", "U", "V", "W", "S", "C"]) await tryBy(id, ["phone", "text", "phone"])
  await tryBy("N", ["phone"])
  await tryBy("F", ["phone", "phone", "phone"])
  const work = { caller: ada, now }
  const again = { kind: "attempt", channel: "phone", outcome: "no answer", againOn: "2026-03-14" } as const
  await clinic.work({ ...work, patientId: "W", act: again })
  await clinic.work({ ...work, patientId: "S", act: { kind: "snooze", until: "2026-04-01" } })
  await clinic.work({ ...work, patientId: "C", act: { kind: "close", reason: "done" } })
})

afterAll(() => clinic.close())

async function tryBy(patientId: string, channels: readonly ContactChannel[]): Promise<void> {
  for (const channel of channels) {
    const act = { kind: "attempt", channel, outcome: "wrong number", againOn: null } as const
    await clinic.work({ patientId, caller: ada, now, act })
  }
}

const listed = async (
  of: { scope?: Scope; ids?: number[]; on?: string; limit?: number; after?: number } = {},
) => listDueLetters(clinic.app, { scope: wholeClinic, on, rule, after: 0, limit: 50, ...of })
const people = async (of: Parameters<typeof listed>[0] = {}) =>
  (await listed(of)).map((one) => one.patientId).toSorted()
const record = (letters: readonly { id: number; version: number }[]) =>
  recordLetters(clinic.app, { caller: ada, scope: wholeClinic, now, on, letters })

describe("a letter is next", () => {
  test("for whoever was tried as often as the rule says or prefers letters, and for nobody else", async () => {
    expect(await people()).toEqual(["A", "B", "P", "Q"])
    expect(await countDueLetters(clinic.app, { scope: wholeClinic, on, rule, after: 0 })).toEqual({
      total: 4,
      before: 0,
    })
  })

  test("by another rule for others", async () => {
    const once = { attempts: 3, channels: 1 }
    const rows = await listDueLetters(clinic.app, { scope: wholeClinic, on, rule: once, after: 0, limit: 50 })

    expect(rows.map((one) => one.patientId).toSorted()).toEqual(["A", "B", "F", "P", "Q"])
  })

  test("page by page in the order of the list, each once", async () => {
    const [first, second] = await listed({ limit: 2 })
    const rest = await listed({ after: second?.place ?? 0 })

    expect((first?.place ?? 0) < (second?.place ?? 0)).toBe(true)
    expect([first, second, ...rest].map((one) => one?.patientId).toSorted()).toEqual(["A", "B", "P", "Q"])
    const counts = { scope: wholeClinic, on, rule, after: second?.place ?? 0 }
    expect(await countDueLetters(clinic.app, counts)).toEqual({ total: 4, before: 2 })
  })

  test("of the cases that are named for those alone, and within a scope for its people alone", async () => {
    const [b] = (await listed()).filter((one) => one.patientId === "B")
    const { id: closed } = await clinic.caseOf("C")

    expect(await people({ ids: [b?.id ?? 0, closed] })).toEqual(["B"])
    expect(await people({ ids: [] })).toEqual([])
    expect(await people({ scope: { sites: ["South"], panelOf: null } })).toEqual(["B"])
  })
})

describe("letters that are recorded as sent", () => {
  test("are attempts of those whose case is as it was shown; the others are named and left", async () => {
    const shown = (await listed()).map(({ id, version }) => ({ id, version }))
    const { id: changed } = await clinic.caseOf("Q")
    await clinic.work({ patientId: "Q", caller: ada, now, act: { kind: "take" } })

    const { sent, left } = await record(shown)

    expect(sent).toHaveLength(3)
    expect(left).toMatchObject([{ id: changed, answer: { is: "outdated" } }])
    expect(await people()).toEqual(["Q"])
    const { events, againOn } = await clinic.caseOf("A")
    expect(events.at(-1)).toMatchObject({ kind: "attempt", channel: "letter", outcome: "letter sent" })
    // Two weeks later: common practice, no source.
    expect(againOn?.toISOString().slice(0, 10)).toBe("2026-03-26")
  })

  test("are not next again in this round, also once nothing is waited for", async () => {
    await clinic.look(new Date("2026-03-27T09:00:00Z"))

    expect(await people({ on: "2026-03-27" })).not.toContain("A")
  })

  test("are next again once that is taken back", async () => {
    await clinic.work({ patientId: "B", caller: ada, now, act: { kind: "take back" } })

    expect(await people()).toContain("B")
  })

  test("of a case out of scope are not there", async () => {
    const { id, version } = await clinic.caseOf("Q")
    const scope = { sites: ["South"], panelOf: null }
    const answer = await recordLetters(clinic.app, {
      caller: ada,
      scope,
      now,
      on,
      letters: [{ id, version }],
    })

    expect(answer).toEqual({ sent: [], left: [{ id, answer: { is: "gone" } }] })
  })
})
