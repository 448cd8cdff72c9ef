import type { DuckDBConnection } from "@duckdb/node-api"
import type { Command } from "commander"
import { wholeClinic } from "../access/scope"
import { askOn, onDay } from "../engine/run"
import { snapshotMeta } from "../engine/snapshot-meta"
import { readEnvironment } from "../env"
import { measures } from "../measures/index"
import { panelPatients, type PanelPatient } from "../questions/panel-patients"
import { asOfFrom } from "./as-of"
import { print } from "./print"
import { recordCommand } from "./record-command"

export function register(program: Command): void {
  program
    .command("patients")
    .description("print every panel patient of one day with values and standings")
    .option("--on <YYYY-MM-DD>", "any past day, or today (default: the latest day with data)")
    .option("--today", "a closed month by today's facts and settings, not as known when it was closed")
    .option("--json", "as JSON; otherwise one line a patient, tabs between")
    .action(async (options: { on?: string; today?: boolean; json?: boolean }) => {
      const meta = await snapshotMeta(wholeClinic)
      const on = asOfFrom(options, meta, new Date())
      const rows = await onDay(
        {
          dataDir: readEnvironment().dataDir,
          scope: wholeClinic,
          asOf: on,
          settings: meta.settings,
          isOfToday: options.today === true,
        },
        (connection) => askOn(connection, panelPatients, { as_of: on }),
      )
      await recordCommand({
        ...{ action: "patients.export", object: "panel", detail: { on } },
        people: rows.map((row) => row.public_id),
      })
      const patients = rows.map(withStandings)
      await print(options.json ? JSON.stringify({ on, patients }) : tableOf(patients))
    })
}

/** Every panel patient of a day on which the connection stands. */
export async function patientsOn(connection: DuckDBConnection, on: string) {
  const rows = await askOn(connection, panelPatients, { as_of: on })
  return rows.map(withStandings)
}

function withStandings(row: PanelPatient) {
  const { standings, public_id: _, ...values } = row
  return {
    ...values,
    standings: Object.fromEntries(measures.map((measure, index) => [measure.id, standings[index] ?? null])),
  }
}

function tableOf(patients: ReturnType<typeof withStandings>[]): string {
  const head = ["patient_id", "pressure", "source", "egfr", "a", "classes", ...measures.map((one) => one.id)]
  const lines = patients.map((one) =>
    [
      one.patient_id,
      one.systolic === null ? "not measured" : `${one.systolic}/${one.diastolic}`,
      one.bp_source ?? "",
      one.egfr ?? "",
      one.a ?? "",
      one.classes.length,
      ...measures.map((measure) => one.standings[measure.id] ?? ""),
    ].join("\t"),
  )
  return [head.join("\t"), ...lines].join("\n")
}
