import type { Caller } from "../../../lib/access/caller"
import type { Emergency } from "../../../lib/store/emergencies"
import { instantInFull } from "../imports/import-words"
import styles from "./emergencies.module.css"
import { ReviewForm } from "./review-form"

/** One emergency access: who, when, why, and its review or the form for it. */
export function EmergencyEntry(props: { emergency: Emergency; caller: Caller; timeZone: string }) {
  const { emergency, caller, timeZone } = props
  return (
    <li>
      <p>
        <strong>{emergency.name}</strong>, {instantInFull(emergency.startsAt, timeZone)} to{" "}
        {instantInFull(emergency.endsAt, timeZone)}
      </p>
      <p>Reason: {emergency.reason}</p>
      {emergency.reviewedAt === null ? (
        <Review emergency={emergency} caller={caller} />
      ) : (
        <p className="soft">
          Reviewed by {emergency.reviewedBy}, {instantInFull(emergency.reviewedAt, timeZone)}:{" "}
          {emergency.reviewNote}
        </p>
      )}
    </li>
  )
}

function Review({ emergency, caller }: { emergency: Emergency; caller: Caller }) {
  if (emergency.userId === caller.userId) return <p className="soft">Another person reviews this one.</p>
  return (
    <>
      <p className={styles.waiting}>Not reviewed yet.</p>
      <ReviewForm id={emergency.id} />
    </>
  )
}
