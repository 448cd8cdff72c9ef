import type { Command } from "commander"
import { wholeClinic } from "../access/scope"
import { plainToday } from "../domain/plain-date"
import type { Settings } from "../domain/settings"
import { askOn, onDay, onSnapshot } from "../engine/run"
import { snapshotMeta, type SnapshotMeta } from "../engine/snapshot-meta"
import { readEnvironment } from "../env"
import { AppError } from "../errors"
import { toCsv } from "../export/csv"
import { outreachList, type OutreachRow } from "../outreach/outreach-list"
import { peopleToContact, type PersonToContact } from "../outreach/people-to-contact"
import { placeWords, reasonWords } from "../speech/outreach-words"
import { casesByPatient, lastAttempts, type LastAttempt } from "../store/case-list"
import { openClient } from "../store/client"
import { openDatabase } from "../store/database"
import { asOfFrom } from "./as-of"
import { print } from "./print"
import { recordCommand } from "./record-command"
import { say } from "./say"

type Options = { on?: string; csv?: boolean; json?: boolean }

export function register(program: Command): void {
  program
    .command("outreach")
    .description("print whom to contact today and why, in the order of the list")
    .option("--on <YYYY-MM-DD>", "the reasons of any past day instead")
    .option("--csv", "as CSV")
    .option("--json", "as JSON; otherwise one line a person, tabs between")
    .action(async (options: Options) => {
      if (options.csv && options.json)
        throw new AppError("bad-request", "Give either --csv or --json, not both.")
      const meta = await snapshotMeta(wholeClinic)
      const now = new Date()
      const today = plainToday(now, meta.timeZone)
      const on = options.on === undefined ? today : asOfFrom(options, meta, now)
      const rows = await rowsOf({ meta, on, today })
      const { cases, attempts } = await known(on)
      const { people, bookedSoon } = peopleToContact({ rows, cases: on === today ? cases : null, today })
      const lines = people.map((one) => lineOf(one, { attempts, settings: meta.settings }))
      await recordCommand({
        ...{ action: "cases.export", object: "cases", detail: { on } },
        people: people.map(({ person }) => person.public_id),
      })
      if (bookedSoon > 0)
        say(
          `Left to the list of their visit, which is within ${meta.settings["outreach.bookedDays"]} days: ${bookedSoon}.`,
        )
      await print(printed(lines, { on, ...options }))
    })
}

/** Today's list stands at the latest day with data; a past day is computed by itself. Who may be contacted is of today. */
function rowsOf(asked: { meta: SnapshotMeta; on: string; today: string }): Promise<OutreachRow[]> {
  const { meta, on, today } = asked
  const place = { dataDir: readEnvironment().dataDir, scope: wholeClinic }
  if (on === today)
    return onSnapshot(place, (connection) =>
      askOn(connection, outreachList, { as_of: meta.runningAsOf, today }),
    )
  return onDay({ ...place, asOf: on, settings: meta.settings, isOfToday: true }, (connection) =>
    askOn(connection, outreachList, { as_of: on, today }),
  )
}

async function known(upTo: string) {
  const database = await openDatabase()
  const client = openClient(database.url)
  try {
    return {
      cases: await casesByPatient(client, wholeClinic),
      attempts: await lastAttempts(client, { scope: wholeClinic, upTo }),
    }
  } finally {
    await client.$disconnect()
    await database.close()
  }
}

type Line = ReturnType<typeof lineOf>

function lineOf(
  { person, reasons }: PersonToContact,
  of: { attempts: ReadonlyMap<string, LastAttempt>; settings: Settings },
) {
  const attempt = of.attempts.get(person.patient_id)
  return {
    patient_id: person.patient_id,
    name: [person.family_name, person.given_name].filter(Boolean).join(", "),
    tier: person.tier,
    reasons: reasons.map((row) => reasonWords(factOf(row), of.settings)),
    why_here: placeWords(person),
    channel: person.preferred_contact,
    language: [person.language, person.interpreter_needed ? "interpreter" : null].filter(Boolean).join(", "),
    last_attempt: attempt ? `${attempt.onDay} ${attempt.channel}: ${attempt.outcome}` : null,
    next_visit: person.next_visit_on,
  }
}

function factOf(row: OutreachRow) {
  return {
    ...{ reason: row.reason, factOn: row.fact_on, value: row.value, secondValue: row.second_value },
    ...{ comparator: row.comparator, fallsOutOn: row.falls_out_on },
  }
}

const columns = [
  ...(["patient_id", "name", "tier", "reasons", "why_here", "channel", "language", "last_attempt"] as const),
  "next_visit",
] as const

function printed(lines: readonly Line[], options: Options & { on: string }): string {
  if (options.json) return JSON.stringify({ on: options.on, people: lines })
  const cells = lines.map((line) =>
    columns.map((column) => (column === "reasons" ? line.reasons.join("; ") : line[column])),
  )
  if (options.csv) return toCsv(columns, cells)
  return [columns, ...cells].map((row) => row.map((cell) => cell ?? "").join("\t")).join("\n")
}
