import path from "node:path"
import type { SettingKey, Settings } from "../../../lib/domain/settings"
import { askOn } from "../../../lib/engine/run"
import { ask, askUnder, callerScope } from "../../_http/ask"
import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import { currentSnapshot } from "../../../lib/engine/snapshot"
import { dietMonths, dietMonthsOfToday, type DietMonth } from "../../../lib/questions/diet-months"
import { measureMonths, measureMonthsOfToday, type MeasureMonth } from "../../../lib/questions/measure-months"
import { pressureLimits, type PressureLimit } from "../../../lib/questions/pressure-limits"
import { triedPeople, type TriedPerson } from "../../../lib/questions/tried-people"
import { standingsMoved, type StandingsMoved } from "../../../lib/questions/standings-moved"
import { site } from "../../_http/site"

type Choice = { settings: Settings; changed: readonly SettingKey[]; isPeopleShown: boolean }

export type HistoryUnder = { months: MeasureMonth[]; diet: DietMonth[] }

export type WhatIfAnswers = {
  now: HistoryUnder
  then: HistoryUnder
  moved: StandingsMoved[]
  limits: PressureLimit[]
  /** Who they are, the first of each measure; nobody where the person who asks sees counts alone. */
  people: TriedPerson[]
}

declare global {
  var filtrateWhatIfAnswers: Map<string, Promise<WhatIfAnswers>> | undefined
}

/** Answers kept, so that looking at one again costs nothing. */
const mostKept = 8

/** As many people as one list names. */
export const mostNamed = 50

/** What the settings would make of every month, beside what is; computed once for a snapshot, a choice and who may see whom. */
export async function whatIfAnswers(snapshot: SnapshotMeta, choice: Choice): Promise<WhatIfAnswers> {
  const { dataDir } = site()
  const kept = (globalThis.filtrateWhatIfAnswers ??= new Map())
  const file = path.basename(currentSnapshot(dataDir) ?? "")
  const key = JSON.stringify([file, await callerScope(), choice.isPeopleShown, choice.settings])
  const known = kept.get(key)
  if (known) return known
  const answer = askBoth({ dataDir, snapshot, ...choice })
  kept.set(key, answer)
  answer.catch(() => kept.delete(key))
  for (const oldest of kept.keys()) if (kept.size > mostKept) kept.delete(oldest)
  return answer
}

async function askBoth(
  options: Choice & { dataDir: string; snapshot: SnapshotMeta },
): Promise<WhatIfAnswers> {
  const asOf = options.snapshot.runningAsOf
  // Other settings are tried on today's facts, also in months that are closed: what they are held against must be of today, too.
  const [months, diet] = await Promise.all([ask(measureMonthsOfToday), ask(dietMonthsOfToday)])
  return askUnder({ ...options, asOf }, async (connection) => {
    return {
      now: { months, diet },
      then: {
        months: await askOn(connection, measureMonths),
        diet: await askOn(connection, dietMonths),
      },
      moved: await askOn(connection, standingsMoved),
      limits: await askOn(connection, pressureLimits),
      people: options.isPeopleShown ? await askOn(connection, triedPeople, { limit: mostNamed }) : [],
    }
  })
}
