import "server-only"
import { z } from "zod"
import type { Scope } from "../access/scope"
import { Settings } from "../domain/settings"
import { AppError } from "../errors"
import { askWithin } from "./scoped"

export type SnapshotMeta = {
  builtAt: string
  today: string
  timeZone: string
  clinicName: string
  isDemo: boolean
  settings: Settings
  /** The running as-of date: where the latest month stands. */
  runningAsOf: string
  /** All as-of dates of the snapshot, earliest first. */
  asOfs: string[]
  /** The months that are shown as they were known when they were closed. */
  closed: ShownClosing[]
}

export type ShownClosing = {
  asOf: string
  closingId: number
  settings: Settings
  /** Whether the figures kept when it was closed come out again to the last digit. */
  isReproduced: boolean
  isOfTheseDefinitions: boolean
  /** How many of the people counted then have no record of their own any more: merged since, or erased. */
  peopleGone: number
}

const Meta = z.object({
  built_at: z.string(),
  today: z.string(),
  time_zone: z.string(),
  clinic_name: z.string(),
  is_demo: z.boolean(),
  settings: z.string(),
})

const Closed = z.object({
  as_of: z.string(),
  closing_id: z.number(),
  settings: z.string(),
  is_reproduced: z.boolean(),
  is_of_these_definitions: z.boolean(),
  people_gone: z.number(),
})

const closedMonths = {
  sql: `select c.as_of, c.closing_id, c.settings, c.is_reproduced, c.is_of_these_definitions, c.people_gone
from closed_months as c order by c.as_of`,
  Row: Closed,
}

const AsOf = z.object({ as_of: z.string(), is_running: z.boolean() })

export async function snapshotMeta(scope: Scope): Promise<SnapshotMeta> {
  const [meta] = await askWithin(scope, { sql: "select * from snapshot_meta", Row: Meta })
  const asOfs = await askWithin(scope, {
    sql: "select as_of, is_running from as_of_dates order by as_of",
    Row: AsOf,
  })
  const closed = await askWithin(scope, closedMonths)
  const running = asOfs.find((one) => one.is_running)
  if (!meta || !running)
    throw new AppError("no-snapshot", "The snapshot is not complete. Run `npx filtrate refresh`.")
  return {
    builtAt: meta.built_at,
    today: meta.today,
    timeZone: meta.time_zone,
    clinicName: meta.clinic_name,
    isDemo: meta.is_demo,
    settings: Settings.parse(JSON.parse(meta.settings)),
    runningAsOf: running.as_of,
    asOfs: asOfs.map((one) => one.as_of),
    closed: closed.map((one) => ({
      ...{ asOf: one.as_of, closingId: one.closing_id },
      settings: Settings.parse(JSON.parse(one.settings)),
      ...{ isReproduced: one.is_reproduced, isOfTheseDefinitions: one.is_of_these_definitions },
      peopleGone: one.people_gone,
    })),
  }
}
