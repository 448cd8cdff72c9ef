import { z } from "zod"
import { wholeClinic, type Scope } from "../../lib/access/scope"
import type { Question } from "../../lib/engine/run"
import { askWithin } from "../../lib/engine/scoped"
import { snapshotMeta, type SnapshotMeta } from "../../lib/engine/snapshot-meta"
import type { Param } from "../../lib/engine/values"
import { activeDrugs } from "../../lib/questions/active-drugs"
import { clinicianPanels } from "../../lib/questions/clinician-panels"
import { keptClasses } from "../../lib/questions/kept-classes"
import { ownChangeCounts } from "../../lib/questions/own-change-counts"
import { ownChanges } from "../../lib/questions/own-changes"
import { ownCounts } from "../../lib/questions/own-counts"
import { ownUrgent } from "../../lib/questions/own-urgent"
import { ownVisits } from "../../lib/questions/own-visits"
import { protectionCounts } from "../../lib/questions/protection-counts"
import { protectionPeople } from "../../lib/questions/protection-people"
import { rasConsiderations } from "../../lib/questions/ras-considerations"
import { rasReasons } from "../../lib/questions/ras-reasons"
import { rasStops } from "../../lib/questions/ras-stops"
import { severalClassesCounts } from "../../lib/questions/several-classes-counts"
import { severalClassesPeople } from "../../lib/questions/several-classes-people"
import { sodiumBars } from "../../lib/questions/sodium-bars"
import { sodiumCounts } from "../../lib/questions/sodium-counts"
import { sodiumEffects } from "../../lib/questions/sodium-effects"
import { sodiumGroups } from "../../lib/questions/sodium-groups"
import { sodiumLimits } from "../../lib/questions/sodium-limits"
import { sodiumAbove } from "../../lib/questions/sodium-people"
import { sodiumRatios } from "../../lib/questions/sodium-ratios"
import { sodiumUrines } from "../../lib/questions/sodium-urines"
import { startingCounts } from "../../lib/questions/starting-and-stopping-counts"
import { startingPeople } from "../../lib/questions/starting-and-stopping-people"
import { stoppedClasses } from "../../lib/questions/stopped-classes"
import { urineHistory } from "../../lib/questions/urine-history"
import { printFigure, timeMs } from "./report"

/** What one review asks at once: of the month, and of those whom `people` lists. */
type Review = {
  what: string
  month: readonly Question<unknown>[]
  people?: Question<{ public_id: string }>
  ofListed?: readonly Question<unknown>[]
  params?: Record<string, Param>
}

const sodium = [sodiumCounts, sodiumLimits, sodiumBars, sodiumRatios, sodiumUrines, sodiumEffects]

const reviews: readonly Review[] = [
  {
    what: "Protection",
    month: [protectionCounts],
    people: protectionPeople,
    ofListed: [urineHistory, activeDrugs, rasStops, rasReasons, rasConsiderations],
  },
  { what: "Sodium", month: [...sodium, sodiumGroups], people: sodiumAbove },
  ...["above-target", "lifestyle-first", "low", "stopped"].map((group_id) => ({
    what: `Starting and stopping, ${group_id}`,
    month: [startingCounts],
    people: startingPeople,
    ofListed: [activeDrugs, keptClasses, stoppedClasses],
    params: { group_id },
  })),
  {
    what: "Several classes",
    month: [severalClassesCounts],
    people: severalClassesPeople,
    ofListed: [activeDrugs],
  },
  {
    what: "My patients",
    month: [clinicianPanels, ownCounts, ownUrgent, ownVisits, ownChangeCounts, ownChanges],
  },
]

/**
 * What the reviews of people ask of the running month and of the one before, as somebody sees it who may see the whole clinic and
 * as a clinician limited to the own panel does, against one pass over all values of the same day, in turn. The least of the runs is
 * told beside the processor time it took, since another program on the machine can only make it longer.
 */
export async function benchReviews(options: { dataDir: string; runs: number }): Promise<void> {
  process.env.FILTRATE_DATA = options.dataDir
  const meta = await snapshotMeta(wholeClinic)
  const days = meta.asOfs.toSorted().toReversed()
  const panels = await askWithin(wholeClinic, clinicianPanels, { as_of: meta.runningAsOf, clinician: null })
  const [largest] = panels
    .filter((one) => one.is_of_record)
    .toSorted((one, other) => other.people - one.people)
  if (!largest) throw new Error("the clinic has nobody whose clinician is on the staff list")
  const scopes: Record<string, Scope> = {
    "whole clinic": wholeClinic,
    "own panel": { sites: null, panelOf: largest.clinician_id },
  }
  for (const [whose, scope] of Object.entries(scopes))
    for (const place of [0, 1])
      for (const review of reviews) {
        const as_of = days[place] ?? meta.runningAsOf
        const earlier_as_of = days[place + 1] ?? as_of
        const params = { ...paramsOf(meta, largest.clinician_id), as_of, earlier_as_of, ...review.params }
        const when = place === 0 ? "running month" : "month before"
        await benchReview({ ...options, review, scope, params, words: `${review.what}, ${whose}, ${when}` })
      }
}

function paramsOf(meta: SnapshotMeta, clinician: string): Record<string, Param> {
  return {
    ...{ clinician, clinician_id: null, group_id: null, detail: null, limit: 50, offset: 0 },
    today: meta.runningAsOf,
    sodium_limit_mg: meta.settings["diet.limitMg"],
    ras_from_category: meta.settings["ras.fromCategory"],
  }
}

async function benchReview(options: {
  review: Review
  scope: Scope
  params: Record<string, Param>
  words: string
  runs: number
}): Promise<void> {
  const { scope, params } = options
  const passes: number[] = []
  const answers: number[] = []
  const processor: number[] = []
  for (let run = 0; run <= options.runs; run += 1) {
    const pass = await timeMs(() => askWithin(scope, passOfDay, params))
    const before = process.cpuUsage()
    const answer = await timeMs(() => answered(options))
    const used = process.cpuUsage(before)
    // The first opens the file, or what the scope holds of it.
    if (run === 0) continue
    passes.push(pass)
    answers.push(answer)
    processor.push((used.user + used.system) / 1000)
  }
  printFigure({
    what: `${options.words} (${Math.min(...processor).toFixed(0)} ms of processor time)`,
    value: Math.min(...answers),
    reference: Math.min(...passes),
    referenceWhat: "one pass over every value of that day",
    unit: "ms",
  })
}

async function answered(options: {
  review: Review
  scope: Scope
  params: Record<string, Param>
}): Promise<void> {
  const { review, scope, params } = options
  const [people] = await Promise.all([
    review.people ? askWithin(scope, review.people, params) : [],
    ...review.month.map((question) => askWithin(scope, question, params)),
  ])
  const listed = { ...params, listed_ids: people.map((person) => person.public_id).join(",") }
  await Promise.all((review.ofListed ?? []).map((question) => askWithin(scope, question, listed)))
}

const passOfDay: Question<unknown> = {
  sql: "select count(columns(*)) from patient_values where as_of = cast($as_of as date)",
  Row: z.unknown(),
}
