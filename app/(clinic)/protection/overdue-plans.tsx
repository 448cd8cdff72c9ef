import Link from "next/link"
import type { WatchedPlan } from "../../../lib/questions/plan-watch"
import { counted, day } from "../../../lib/speech/format"
import { listName } from "../../../lib/speech/person-name"
import { hrefOf } from "../../_ui/href"
import styles from "./protection.module.css"

/** Plans to start one that were not followed within two calendar months, those due first before the others. */
export function OverduePlans({ plans, month }: { plans: readonly WatchedPlan[]; month: string | null }) {
  if (plans.length === 0) return null
  return (
    <section className={styles.overdue} aria-labelledby="overdue">
      <h2 id="overdue">{counted(plans.length, "person", "people")}: planned, not started in time</h2>
      <ul>
        {plans.map((plan) => (
          <li key={`${plan.public_id} ${plan.made_on}`}>
            <Link href={hrefOf(`/patients/${plan.public_id}`, { month })} prefetch={false}>
              {listName(plan)}
            </Link>{" "}
            planned {day(plan.made_on)}, due by {day(plan.due_on)}
          </li>
        ))}
      </ul>
    </section>
  )
}
