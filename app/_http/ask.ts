import "server-only"
import { cache } from "react"
import { may } from "../../lib/access/permissions"
import { scopeOf, type Scope } from "../../lib/access/scope"
import { findEmergency } from "../../lib/store/emergencies"
import { readSettings } from "../../lib/store/settings"
import { askAsArrow as askAsArrowWithin, type TableQuestion } from "../../lib/engine/arrow"
import type { Question } from "../../lib/engine/run"
import { askWithin } from "../../lib/engine/scoped"
import { snapshotMeta as snapshotMetaWithin, type SnapshotMeta } from "../../lib/engine/snapshot-meta"
import type { Param } from "../../lib/engine/values"
import { whatIf } from "../../lib/engine/what-if"
import { AppError } from "../../lib/errors"
import { store } from "../../lib/store/client"
import { currentCaller } from "./require-user"

/** What the person who asks may see. Throws AppError("not-signed-in") where nobody is. */
export const callerScope = cache(async (): Promise<Scope> => {
  const caller = await currentCaller()
  if (!caller) throw new AppError("not-signed-in", "Sign in first.")
  const [settings, emergency] = await Promise.all([readSettings(store()), currentEmergency()])
  return scopeOf(caller, { ownPanel: settings["access.ownPanel"], isEmergency: emergency !== null })
})

/** The emergency access that the person who asks has opened, while it lasts and their roles may have it. */
export const currentEmergency = cache(async () => {
  const caller = await currentCaller()
  if (!caller || !may(caller, "emergency.open")) return null
  return findEmergency(store(), { userId: caller.userId, now: new Date() })
})

/** Asks the snapshot, as far as the person may see it. */
export async function ask<Row>(question: Question<Row>, params: Record<string, Param> = {}): Promise<Row[]> {
  return askWithin(await callerScope(), question, params)
}

/** The same for a large table. */
export async function askAsArrow(
  question: TableQuestion,
  params: Record<string, Param> = {},
): Promise<Uint8Array> {
  return askAsArrowWithin(await callerScope(), question, params)
}

export async function snapshotMeta(): Promise<SnapshotMeta> {
  return snapshotMetaWithin(await callerScope())
}

type Under = Omit<Parameters<typeof whatIf>[0], "scope">
type Work<T> = Parameters<typeof whatIf<T>>[1]

/** Asks what other settings would make of the people whom the person may see. */
export async function askUnder<T>(options: Under, work: Work<T>): Promise<T> {
  return whatIf({ ...options, scope: await callerScope() }, work)
}
