import Link from "next/link"
import { orderKeys } from "../../../lib/outreach/outreach-list"
import type { Settings } from "../../../lib/domain/settings"
import { orderKeyWords } from "../../../lib/speech/outreach-row-words"
import { Theme } from "../../_ui/screen"
import styles from "./outreach.module.css"

/** The rule of the order in full: what is asked first, and from where each comes. */
export function HowOrdered({ settings }: { settings: Settings }) {
  const asked = orderKeys.filter(
    (key) => key !== "order of reasons" || settings["outreach.reasonOrder"] !== "",
  )
  return (
    <div className={styles.order}>
      <Theme title="How the order is made" id="order">
        <p>
          Between two people the first of these in which they differ decides. Urgent is a pressure of 180 or
          120 in the last seven days, a potassium of 6.0 mmol/L or more, or a drug stopped abruptly.
        </p>
        <ol>
          {asked.map((key) => (
            <li key={key}>{orderKeyWords[key]}</li>
          ))}
        </ol>
        <p>
          Sources: the risk is that of the KDIGO 2024 CKD guideline by eGFR and albuminuria, the failure risk
          that of the patient’s page; which of them is asked first is common practice, no source. The reasons,
          and whether they have an order of their own, are{" "}
          <Link href="/settings/outreach" prefetch={false}>
            settings of the clinic
          </Link>
          . Clinicians decide; local policy applies.
        </p>
      </Theme>
    </div>
  )
}
