import type { Command } from "commander"
import { standings } from "../domain/standings"
import { wholeClinic } from "../access/scope"
import { askOn, onDay } from "../engine/run"
import { snapshotMeta } from "../engine/snapshot-meta"
import { readEnvironment } from "../env"
import { AppError } from "../errors"
import { standingPeopleCsv } from "../export/standing-people-csv"
import { findMeasure, measures } from "../measures/index"
import { standingPeople } from "../questions/standing-people"
import { asOfFrom } from "./as-of"
import { print } from "./print"
import { recordCommand } from "./record-command"

export function register(program: Command): void {
  program
    .command("export")
    .argument("<measure>", `one of ${measures.map((one) => one.id).join(", ")}`)
    .description("print the people of one standing of a measure")
    .option("--on <YYYY-MM-DD>", "any past day, or today (default: the latest day with data)")
    .option("--today", "a closed month by today's facts and settings, not as known when it was closed")
    .option("--standing <standing>", `one of ${standings.join(", ")}`, "not met")
    .option("--csv", "as CSV (the only form there is)")
    .action(async (id: string, options: { on?: string; today?: boolean; standing: string }) => {
      const measure = findMeasure(id)
      if (!measure)
        throw new AppError(
          "bad-request",
          `There is no list for "${id}". Measures with lists: ${measures.map((one) => one.id).join(", ")}.`,
        )
      const standing = standings.find((one) => one === options.standing.replaceAll("-", " "))
      if (!standing)
        throw new AppError(
          "bad-request",
          `"${options.standing}" is no standing. Standings: ${standings.join(", ")}.`,
        )
      const meta = await snapshotMeta(wholeClinic)
      const on = asOfFrom(options, meta, new Date())
      const people = await onDay(
        {
          ...{ dataDir: readEnvironment().dataDir, scope: wholeClinic, asOf: on, settings: meta.settings },
          isOfToday: options.today === true,
        },
        (connection) => askOn(connection, standingPeople(measure), { as_of: on, standing }),
      )
      await recordCommand({
        ...{ action: "patients.export", object: "measure", objectId: measure.id, detail: { on, standing } },
        people: people.map((row) => row.public_id),
      })
      await print(standingPeopleCsv({ on, measureId: measure.id, standing, people }))
    })
}
