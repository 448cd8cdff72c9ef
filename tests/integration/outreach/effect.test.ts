import { createHash } from "node:crypto"
import fc from "fast-check"
import { afterAll, beforeAll, describe, expect, it } from "vitest"
import { wholeClinic } from "../../../lib/access/scope"
import { turnedInto } from "../../../lib/outreach/turned-into"
import { effectOfOutreach, type EffectRow } from "../../../lib/store/outreach-effect"
import { openStore, type TestStore } from "../../helpers/open-store"
import { tellHistories, type ToldReason } from "../../helpers/told-histories"

const period = { from: "2026-03-01", to: "2026-08-31" }
const lookedOn = "2026-08-31"
const noAnswer = "no answer"
const agreed = "reached, agreed"

// Worked out on paper; each reason has one person contacted, so that whom they are put beside is no matter of chance.
const told: ToldReason[] = [
  // A was contacted on day 9 and resolved 15 days later. B was resolved on day 5 and cannot stand beside; C can, from 14 March,
  // and is resolved 37 days after. Z began in another month, Y asked not to be contacted.
  {
    person: "A",
    reason: "potassium-high",
    began: "2026-03-01",
    ended: "2026-03-25",
    attempts: [["2026-03-10", agreed]],
  },
  { person: "B", reason: "potassium-high", began: "2026-03-05", ended: "2026-03-10" },
  { person: "C", reason: "potassium-high", began: "2026-03-05", ended: "2026-04-20" },
  { person: "Z", reason: "potassium-high", began: "2026-04-01" },
  { person: "Y", reason: "potassium-high", began: "2026-03-01", keptFrom: "asked not to be contacted" },
  // E is not followed any more 10 days after the day from which D and E are counted.
  { person: "D", reason: "urine-albumin-due", began: "2026-03-01", attempts: [["2026-03-06", noAnswer]] },
  { person: "E", reason: "urine-albumin-due", began: "2026-03-02", ended: "2026-03-17", why: "not followed" },
  // F's pressure became worse, which is no resolving; G's came to target.
  {
    person: "F",
    reason: "above-target",
    began: "2026-03-01",
    ended: "2026-03-20",
    attempts: [["2026-03-02", agreed]],
  },
  { person: "F", reason: "pressure-high", began: "2026-03-20" },
  { person: "G", reason: "above-target", began: "2026-03-01", ended: "2026-03-12" },
  // H was contacted 31 days ago: 30 days are over, 90 are not. I is counted from 1 August, too.
  { person: "H", reason: "diet-record-due", began: "2026-07-30", attempts: [["2026-08-01", noAnswer]] },
  { person: "I", reason: "diet-record-due", began: "2026-07-30", ended: "2026-08-31" },
  // What came on the day of the attempt was on its way: nobody was contacted.
  {
    person: "J",
    reason: "kidney-tests-due",
    began: "2026-03-01",
    ended: "2026-03-09",
    attempts: [["2026-03-09", agreed]],
  },
  // Switched off is not resolved, and its pair tells nothing.
  {
    person: "K",
    reason: "lost-to-follow-up",
    began: "2026-03-01",
    attempts: [["2026-03-01", agreed]],
    ended: "2026-03-09",
    why: "switched off",
  },
  { person: "L", reason: "lost-to-follow-up", began: "2026-03-01" },
]

const none = {
  ...{ people: 0, contacted: 0, reached: 0, paired: 0, pairs_30: 0, contacted_resolved_30: 0 },
  ...{ others_resolved_30: 0, pairs_90: 0, contacted_resolved_90: 0, others_resolved_90: 0 },
}

let store: TestStore

beforeAll(async () => {
  store = await openStore()
})

afterAll(() => store.close())

const ask = () => effectOfOutreach(store.prisma, { ...period, scope: wholeClinic, turnedInto })

describe("what came of outreach", () => {
  it("is as worked out on paper", async () => {
    expect(await ask()).toEqual([{ ...none, reason: null }])

    await tellHistories(store, { told, lookedOn })
    const rows = new Map((await ask()).map((row) => [row.reason, row]))

    const pair = { paired: 1, pairs_30: 1, pairs_90: 1 }
    expect(rows.get("potassium-high")).toEqual({
      ...{ ...none, ...pair, reason: "potassium-high", people: 4, contacted: 1, reached: 1 },
      ...{ contacted_resolved_30: 1, contacted_resolved_90: 1, others_resolved_90: 1 },
    })
    expect(rows.get("urine-albumin-due")).toEqual({
      ...{ ...none, reason: "urine-albumin-due", people: 2, contacted: 1, paired: 1 },
    })
    expect(rows.get("above-target")).toEqual({
      ...{ ...none, ...pair, reason: "above-target", people: 2, contacted: 1, reached: 1 },
      ...{ others_resolved_30: 1, others_resolved_90: 1 },
    })
    expect(rows.get("diet-record-due")).toMatchObject({ contacted: 1, reached: 0, pairs_30: 1, pairs_90: 0 })
    expect(rows.get("diet-record-due")).toMatchObject({ contacted_resolved_30: 0, others_resolved_30: 1 })
    expect(rows.get("kidney-tests-due")).toEqual({ ...none, reason: "kidney-tests-due", people: 1 })
    expect(rows.get("lost-to-follow-up")).toMatchObject({ contacted: 1, paired: 1, pairs_30: 0 })
    expect(rows.get(null)).toMatchObject({ people: 13, contacted: 5, pairs_30: 3, pairs_90: 2 })
  })

  it("equals what is counted beside it from histories made by chance", async () => {
    const other = await openStore()
    const histories = fc.sample(history, { seed: 20261128, numRuns: 260 })
    const made = histories.map((one, at) => ({ ...one, person: `P${at}` }))
    await tellHistories(other, { told: made, lookedOn })
    const spells = await other.prisma.outreachCaseReason.findMany({ orderBy: { id: "asc" } })
    const rows = await effectOfOutreach(other.prisma, { ...period, scope: wholeClinic, turnedInto })
    await other.close()

    const expected = countBeside(
      made.map((one) => ({ ...one, id: Number(spells.find((row) => row.patientId === one.person)?.id) })),
    )
    expect(rows).toEqual(expected)
    expect(rows[0]?.pairs_30).toBeGreaterThan(20)
    expect(rows[0]?.pairs_90).toBeLessThan(rows[0]?.pairs_30 ?? 0)
  })
})

const dayAfter = (day: string, days: number) =>
  new Date(Date.parse(day) + days * 86_400_000).toISOString().slice(0, 10)

/** A reason of somebody, contacted or not, gone or not, of two reasons and two months, so that many share them. */
const history = fc
  .record({
    reason: fc.constantFrom("diet-record-due", "potassium-high"),
    began: fc.constantFrom("2026-03-03", "2026-03-20", "2026-06-10"),
    lasted: fc.option(fc.integer({ min: 1, max: 120 })),
    why: fc.constantFrom("by the facts", "by the facts", "by the facts", "not followed", "switched off"),
    waited: fc.option(fc.integer({ min: 0, max: 60 })),
    outcome: fc.constantFrom(noAnswer, agreed, "message left", "wants a call back"),
  })
  .map(({ reason, began, lasted, why, waited, outcome }): Omit<ToldReason, "person"> => {
    const ended = lasted === null ? lookedOn : dayAfter(began, lasted)
    const isOver = lasted !== null && ended <= lookedOn
    return {
      ...{ reason, began, ...(isOver ? { ended, why } : {}) },
      attempts: waited === null ? [] : [[dayAfter(began, waited), outcome]],
    }
  })

type Spell = ToldReason & { id: number }

/** The same counts by plain loops over the histories. */
function countBeside(spells: readonly Spell[]): EffectRow[] {
  const firstOf = (one: Spell) => {
    const [first] = (one.attempts ?? []).filter(
      ([on]) => on <= lookedOn && (one.ended === undefined || on < one.ended),
    )
    return first ?? null
  }
  const drawn = (word: string, list: readonly Spell[]) =>
    list.toSorted((one, two) => (md5(`${word} ${one.id}`) < md5(`${word} ${two.id}`) ? -1 : 1))
  const pairs: { contacted: Spell; from: string; other: Spell; otherFrom: string }[] = []
  for (const stratum of new Set(spells.map(stratumOf))) {
    const all = spells.filter((one) => stratumOf(one) === stratum)
    const contacted = drawn(
      "contacted",
      all.filter((one) => firstOf(one) !== null),
    )
    const offered = drawn("other", all)
    for (const [place, one] of contacted.entries()) {
      const from = firstOf(one)?.[0] ?? ""
      const waited = (Date.parse(from) - Date.parse(one.began)) / 86_400_000
      const other = offered.find((two, at) => {
        const day = dayAfter(two.began, waited)
        const attempted = firstOf(two)?.[0]
        return (
          at % contacted.length === place &&
          two !== one &&
          day <= lookedOn &&
          (two.ended === undefined || two.ended > day) &&
          (attempted === undefined || attempted > day)
        )
      })
      if (other) pairs.push({ contacted: one, from, other, otherFrom: dayAfter(other.began, waited) })
    }
  }
  const used = new Set(pairs.map((pair) => pair.other))
  const kept = pairs.filter((pair) => !used.has(pair.contacted))
  const endedBy = (one: Spell, day: string) => (one.ended !== undefined && one.ended <= day ? one.why : null)
  const row = (reason: string | null): EffectRow => {
    const own = spells.filter((one) => reason === null || one.reason === reason)
    const ownPairs = kept.filter((pair) => reason === null || pair.contacted.reason === reason)
    const after = (days: number) => {
      const judged = ownPairs.flatMap(({ contacted, from, other, otherFrom }) => {
        const [end, otherEnd] = [dayAfter(from, days), dayAfter(otherFrom, days)]
        const ways = [endedBy(contacted, end), endedBy(other, otherEnd)]
        if (end > lookedOn || otherEnd > lookedOn) return []
        return ways.some((why) => why === "not followed" || why === "switched off") ? [] : [ways]
      })
      const resolved = (side: 0 | 1) => judged.filter((ways) => ways[side] === "by the facts").length
      return { pairs: judged.length, contacted: resolved(0), others: resolved(1) }
    }
    const [month, quarter] = [after(30), after(90)]
    return {
      ...{ reason, people: own.length, contacted: own.filter((one) => firstOf(one) !== null).length },
      reached: own.filter((one) => [agreed, "wants a call back"].includes(firstOf(one)?.[1] ?? "")).length,
      ...{ paired: ownPairs.length, pairs_30: month.pairs, contacted_resolved_30: month.contacted },
      ...{ others_resolved_30: month.others, pairs_90: quarter.pairs },
      ...{ contacted_resolved_90: quarter.contacted, others_resolved_90: quarter.others },
    }
  }
  return [null, "diet-record-due", "potassium-high"].map(row)
}

function stratumOf(one: Spell): string {
  return `${one.reason} ${one.began.slice(0, 7)}`
}

function md5(text: string): string {
  return createHash("md5").update(text).digest("hex")
}
