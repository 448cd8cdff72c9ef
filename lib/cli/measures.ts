import type { DuckDBConnection } from "@duckdb/node-api"
import type { Command } from "commander"
import { wholeClinic } from "../access/scope"
import { askOn, onDay } from "../engine/run"
import { snapshotMeta } from "../engine/snapshot-meta"
import { readEnvironment } from "../env"
import { dietSodium } from "../measures/diet-sodium"
import { measures } from "../measures/index"
import type { Measure } from "../measures/types"
import { dietMean } from "../questions/diet-mean"
import { measureInMonth, type MeasureInMonth } from "../questions/measure-in-month"
import { measureCounts, type MeasureCounts } from "../questions/measure-counts"
import { rateOf } from "../statistics/rate"
import { tInterval } from "../statistics/t-interval"
import { asOfFrom } from "./as-of"
import { printKept } from "./kept-figures"
import { print } from "./print"
import { recordCommand } from "./record-command"

export function register(program: Command): void {
  program
    .command("measures")
    .description("print every measure of one day: counts, rate and interval")
    .option("--month <YYYY-MM>", "the month, at its last day (the running month at its latest day with data)")
    .option("--on <YYYY-MM-DD>", "any past day, or today")
    .option("--today", "a closed month by today's facts and settings, not as known when it was closed")
    .option("--json", "as JSON")
    .option("--kept <request>", "with --month: as it stood before the erasure of this number")
    .action(
      async (options: { month?: string; on?: string; today?: boolean; json?: boolean; kept?: string }) => {
        if (options.kept !== undefined) return printKept(options.kept, options)
        const meta = await snapshotMeta(wholeClinic)
        const on = asOfFrom(options, meta, new Date())
        const report = await onDay(
          {
            dataDir: readEnvironment().dataDir,
            scope: wholeClinic,
            asOf: on,
            settings: meta.settings,
            isOfToday: options.today === true,
          },
          async (connection) => ({ on, measures: await measuresOn(connection, on) }),
        )
        await recordCommand({ action: "figures.print", detail: { on } })
        await print(options.json ? JSON.stringify(report) : tableOf(report))
      },
    )
}

/** Every measure of a day on which the connection stands. */
export async function measuresOn(
  connection: DuckDBConnection,
  on: string,
): Promise<(MeasureLine | DietLine)[]> {
  const counts = await askOn(connection, measureCounts, { as_of: on })
  const inMonth = (await askOn(connection, measureInMonth)).filter((row) => row.as_of === on)
  const diet = await askOn(connection, dietMean, { as_of: on, series: dietSodium.headlineSeries })
  return [...measures.map((one) => measureLine(one, { counts, inMonth })), dietLine(diet[0])]
}

type MeasureLine = ReturnType<typeof measureLine>
type DietLine = ReturnType<typeof dietLine>

const nobody = { population: 0, excluded: 0, unknown: 0, met: 0, not_met: 0, exception: 0 }

function measureLine(measure: Measure, rows: { counts: MeasureCounts[]; inMonth: MeasureInMonth[] }) {
  const {
    population,
    excluded,
    unknown,
    met,
    not_met: notMet,
    exception,
  } = rows.counts.find((row) => row.measure_id === measure.id) ?? nobody
  const counts = { population, excluded, unknown, met, notMet, exception }
  const { rate, interval } = rateOf(counts, measure.direction)
  const own = rows.inMonth.find((row) => row.measure_id === measure.id)
  const inMonth = own ? { met: own.met, notMet: own.not_met, unknown: own.unknown } : null
  return {
    id: measure.id,
    ...counts,
    rate,
    low: interval?.low ?? null,
    high: interval?.high ?? null,
    inMonth,
  }
}

function dietLine(
  row:
    | {
        n: number
        mean_mg: number | null
        sd_mg: number | null
        paired_n: number
        paired_change_mg: number | null
        paired_sd_mg: number | null
      }
    | undefined,
) {
  const interval = row ? tInterval({ n: row.n, mean: row.mean_mg, sd: row.sd_mg }) : null
  return {
    id: dietSodium.id,
    n: row?.n ?? 0,
    meanMg: row?.mean_mg ?? null,
    low: interval?.low ?? null,
    high: interval?.high ?? null,
    pairedN: row?.paired_n ?? 0,
    pairedChangeMg: row?.paired_change_mg ?? null,
  }
}

function tableOf(report: { on: string; measures: (MeasureLine | DietLine)[] }): string {
  const lines = report.measures.map((line) =>
    "n" in line
      ? `${line.id.padEnd(34)} mean ${whole(line.meanMg)} mg (${whole(line.low)} to ${whole(line.high)}), ${line.n} people; ` +
        `same people ${whole(line.pairedChangeMg)} mg (${line.pairedN})`
      : `${line.id.padEnd(34)} ${percent(line.rate)} (${percent(line.low)} to ${percent(line.high)})  met ${line.met}, not met ${line.notMet}, ` +
        `not known ${line.unknown}, documented reason ${line.exception}, excluded ${line.excluded}, population ${line.population}`,
  )
  return [`On ${report.on}`, ...lines].join("\n")
}

function percent(share: number | null): string {
  return share === null ? "no rate" : `${(share * 100).toFixed(1)}%`
}

function whole(mg: number | null): string {
  return mg === null ? "none" : String(Math.floor(mg + 0.5))
}
