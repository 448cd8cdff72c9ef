import Link from "next/link"
import { may } from "../../../lib/access/permissions"
import type { Caller } from "../../../lib/access/caller"
import { topicOf } from "../../../lib/domain/setting-choices"
import { settingKeys } from "../../../lib/domain/setting-values"
import type { Settings } from "../../../lib/domain/settings"
import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import { AppError } from "../../../lib/errors"
import { listed } from "../../../lib/speech/format"
import { recordedOnce } from "../../_http/recorded"
import { settingsHref, proposedTexts } from "./search-params"
import styles from "./proposal.module.css"
import { TargetsBecome } from "./targets-become"
import { TriedMeasureRow, TriedSeriesRow } from "./tried-rows"
import { whatIfAnswers, type WhatIfAnswers } from "./what-if-answers"
import { triedMeasures, triedSeries } from "./what-if-figures"

/** Every measure that the proposal would change, beside what it is now; the others in one line. */
export async function Outcome(props: { caller: Caller; snapshot: SnapshotMeta; settings: Settings }) {
  const { caller, snapshot, settings } = props
  const changed = settingKeys.filter((key) => settings[key] !== snapshot.settings[key])
  const isPeopleShown = may(caller, "people.see")
  const answers = await answered(snapshot, { settings, changed, isPeopleShown })
  if (answers === null)
    return (
      <p className={styles.pending}>
        Another choice was computed in the meantime.{" "}
        <Link href={settingsHref(proposedTexts(settings, changed))} prefetch={false}>
          Show this one again
        </Link>
      </p>
    )
  const people = [...new Set(answers.people.map((person) => person.public_id))]
  if (people.length > 0) await recordedOnce(caller, { action: "patients.list", object: "what-if", people })
  const measures = triedMeasures(answers, snapshot, settings)
  const series = triedSeries(answers, snapshot)
  const touched = measures.filter((one) => one.isChanged)
  const same = measures.filter((one) => !one.isChanged)
  return (
    <div>
      {changed.some((key) => topicOf(key).id === "pressure-target") ? (
        <TargetsBecome limits={answers.limits} />
      ) : null}
      {touched.length + series.length === 0 ? (
        <p className={styles.nothing}>No figure of any month would change.</p>
      ) : (
        <h3 className="visually-hidden">What would change</h3>
      )}
      {touched.map((tried) => (
        <TriedMeasureRow key={tried.now.measure.id} tried={tried} />
      ))}
      {series.map((tried) => (
        <TriedSeriesRow key={tried.now.name} tried={tried} />
      ))}
      {touched.length + series.length > 0 && same.length > 0 ? (
        <p className={styles.same}>Unchanged: {listed(same.map((one) => one.now.measure.name))}.</p>
      ) : null}
    </div>
  )
}

/** Null when a newer choice stopped this one. */
async function answered(
  snapshot: SnapshotMeta,
  choice: Parameters<typeof whatIfAnswers>[1],
): Promise<WhatIfAnswers | null> {
  try {
    return await whatIfAnswers(snapshot, choice)
  } catch (error) {
    if (error instanceof AppError && error.code === "superseded") return null
    throw error
  }
}
