import { wholeClinic } from "../../lib/access/scope"
import { proposeSettings, type Proposal } from "../../lib/domain/setting-proposal"
import type { SettingKey } from "../../lib/domain/settings"
import { askOn } from "../../lib/engine/run"
import { snapshotMeta, type SnapshotMeta } from "../../lib/engine/snapshot-meta"
import { closeWarm, overWarm } from "../../lib/engine/warm-snapshot"
import { whatIf } from "../../lib/engine/what-if"
import { dietMonths } from "../../lib/questions/diet-months"
import { measureMonths } from "../../lib/questions/measure-months"
import { pressureLimits } from "../../lib/questions/pressure-limits"
import { standingsMoved } from "../../lib/questions/standings-moved"
import { triedPeople } from "../../lib/questions/tried-people"
import { printFigure, timeMs } from "./report"

type Case = { what: string; texts: Partial<Record<SettingKey, string>>; limit?: string }

const asked = "under 300 ms is asked"

const cases: readonly Case[] = [
  { what: "target 120/80", texts: { "bp.systolicTarget": "120" }, limit: asked },
  {
    what: "target 140/90, at home 130/85",
    texts: {
      "bp.systolicTarget": "140",
      "bp.diastolicTarget": "90",
      "bp.homeSystolicTarget": "130",
      "bp.homeDiastolicTarget": "85",
    },
    limit: asked,
  },
  { what: "window of 6 months", texts: { "bp.windowMonths": "6" }, limit: asked },
  { what: "fresh for 30 days", texts: { "bp.freshDays": "30" }, limit: asked },
  { what: "eGFR within 12 months", texts: { "egfr.windowMonths": "12" }, limit: asked },
  { what: "eGFR within 36 months", texts: { "egfr.windowMonths": "36" }, limit: asked },
  { what: "urine within 12 months", texts: { "acr.windowMonths": "12" }, limit: asked },
  { what: "urine within 36 months", texts: { "acr.windowMonths": "36" }, limit: asked },
  { what: "a visit within 12 months", texts: { "panel.visitMonths": "12" }, limit: asked },
  { what: "a visit within 24 months", texts: { "panel.visitMonths": "24" }, limit: asked },
  { what: "A3 from 300 mg/g on", texts: { "acr.a3": "ada" }, limit: asked },
  { what: "RAS blockers from A3 on", texts: { "ras.fromCategory": "A3" }, limit: asked },
  { what: "diet of 30 days", texts: { "diet.windowDays": "30" }, limit: asked },
  { what: "diet of 365 days", texts: { "diet.windowDays": "365" }, limit: asked },
  { what: "several means four", texts: { "drugs.several": "4" }, limit: asked },
  { what: "sodium within 3,000 mg", texts: { "diet.limitMg": "3000" }, limit: asked },
  { what: "low under 105", texts: { "bp.lowSystolic": "105" }, limit: asked },
  { what: "home average of 8 readings", texts: { "bp.homeMinReadings": "8" } },
]

/**
 * What other settings make of every month, asked as the Settings screen asks it, against one pass over all rows of every
 * person and month in the same warm instance, in turn. The least of the runs is told beside the processor time it took, since
 * another program on the machine can only make it longer.
 */
export async function benchWhatIf(options: { dataDir: string; runs: number }): Promise<void> {
  process.env.FILTRATE_DATA = options.dataDir
  const meta = await snapshotMeta(wholeClinic)
  try {
    for (const one of cases) await benchCase({ ...options, meta, one })
  } finally {
    await closeWarm()
  }
}

async function benchCase(options: {
  dataDir: string
  runs: number
  meta: SnapshotMeta
  one: Case
}): Promise<void> {
  const { dataDir, runs, meta, one } = options
  const proposal = proposeSettings(meta.settings, one.texts)
  const passes: number[] = []
  const answers: number[] = []
  const processor: number[] = []
  for (let run = 0; run <= runs; run += 1) {
    const pass = await timeMs(() =>
      overWarm({ dataDir, scope: wholeClinic }, (connection) => connection.runAndReadAll(passSql)),
    )
    const before = process.cpuUsage()
    const answer = await timeMs(() => answered({ dataDir, meta, proposal }))
    const used = process.cpuUsage(before)
    // The first opens the instance and reads the file.
    if (run === 0) continue
    passes.push(pass)
    answers.push(answer)
    processor.push((used.user + used.system) / 1000)
  }
  printFigure({
    what: `What if, ${one.what} (${Math.min(...processor).toFixed(0)} ms of processor time)`,
    value: Math.min(...answers),
    reference: Math.min(...passes),
    referenceWhat: "one pass over every value of every person and month",
    unit: "ms",
    ...(one.limit ? { limit: one.limit } : {}),
  })
}

async function answered(options: { dataDir: string; meta: SnapshotMeta; proposal: Proposal }): Promise<void> {
  const { dataDir, meta, proposal } = options
  const { settings, changed } = proposal
  const asOf = meta.runningAsOf
  await whatIf({ dataDir, scope: wholeClinic, settings, changed, asOf }, async (connection) => {
    await askOn(connection, standingsMoved)
    await askOn(connection, measureMonths)
    await askOn(connection, dietMonths)
    await askOn(connection, pressureLimits)
    await askOn(connection, triedPeople, { limit: 50 })
  })
}

const passSql = "select count(columns(*)) from patient_values"
