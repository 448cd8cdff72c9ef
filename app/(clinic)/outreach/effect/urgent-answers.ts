import "server-only"
import type { SnapshotMeta } from "../../../../lib/engine/snapshot-meta"
import { listedPeople } from "../../../../lib/questions/listed-people"
import { fullName } from "../../../../lib/speech/person-name"
import { store } from "../../../../lib/store/client"
import { urgentSeen } from "../../../../lib/store/urgent-seen"
import { ask, callerScope } from "../../../_http/ask"
import type { EffectView } from "./search-params"

const mostListed = 50

export type UrgentAnswers = Awaited<ReturnType<typeof urgentAnswers>>

/** What became of the urgent reasons of a period, with the names of those whose ended unseen. */
export async function urgentAnswers(snapshot: SnapshotMeta, view: EffectView) {
  const seen = await urgentSeen(store(), { ...view, scope: await callerScope(), limit: mostListed })
  const listed = [...new Set(seen.latestMissed.map((one) => one.publicId))].join(",")
  const found =
    listed === "" ? [] : await ask(listedPeople, { as_of: snapshot.runningAsOf, listed_ids: listed })
  const known = new Map(found.map((one) => [one.public_id, one] as const))
  const people = seen.latestMissed.map((one) => ({
    ...one,
    name: fullName(known.get(one.publicId) ?? null),
  }))
  return { ...seen, people }
}
