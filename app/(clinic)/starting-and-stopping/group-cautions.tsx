import type { ReactNode } from "react"
import type { StartingGroupId } from "../../../lib/questions/starting-and-stopping-groups"
import { Caution } from "../../_ui/notice"
import styles from "../people-list.module.css"

const stopping = (
  <>
    <p>
      No pressure drug is stopped abruptly, clonidine-like drugs and beta blockers above all: lowered in
      steps, one at a time, and measured afterwards, also when all seems well (AHA/ACC 2025). With organ
      damage, such as albuminuria, heart failure or a low eGFR, the bar for stopping is high (common practice,
      no source).
    </p>
    <p>A normal office reading says nothing of the night; a 24-hour measurement does.</p>
  </>
)

const cautions: Readonly<Record<StartingGroupId, ReactNode>> = {
  "above-target": (
    <>
      <p>
        Confirmed before a drug is begun: by further readings, at home where possible, as an office pressure
        alone may be a white-coat effect (ACC/AHA 2017). A drug that is taken may be missing from the record.
      </p>
      <p>
        In CKD guidance begins drugs from 130/80 beside less salt (ACC/AHA 2017, AHA/ACC 2025; secondary).
        Severe pressure without acute organ damage is not lowered rapidly (AHA/ACC 2025, secondary); with
        symptoms it is an emergency.
      </p>
    </>
  ),
  "lifestyle-first": (
    <>
      <p>
        Between 120/80 and the target guidance puts lifestyle first: less salt, weight, movement, less
        alcohol, and a pressure measured again (ACC/AHA 2017, from memory). In CKD less than 2,000 mg of
        sodium a day (KDIGO 2021, suggested), not in salt-wasting disease (from memory).
      </p>
      <p>
        A salt substitute holds potassium, which may be dangerous in CKD. An ACE inhibitor or ARB may be due
        for albuminuria whatever the pressure.
      </p>
    </>
  ),
  low: (
    <>
      <p>
        A reason to look, not to stop: ask about dizziness, falls, illness and fluid loss, and measure
        standing; a fall of 20 mmHg or more is a reason to review the drugs (NICE NG136). A class with another
        reason is not the one to go.
      </p>
      {stopping}
    </>
  ),
  stopped: (
    <>
      <p>
        Ask whether it was stopped, ran out, or goes on elsewhere. Clonidine stopped at once may be followed
        within 24 to 36 hours by a severe rise; where a beta blocker is taken too, that one goes first, some
        days before (review and product text, read in part).
      </p>
      {stopping}
    </>
  ),
}

/** What may hurt on this list, who decides, and where it is from. */
export function GroupCautions({ group }: { group: StartingGroupId }) {
  return (
    <div className={styles.before}>
      <Caution>
        {cautions[group]}
        <p>Clinicians decide; local policy applies.</p>
      </Caution>
    </div>
  )
}

/** Where the cautions and the reasons for a class are from, and what of it was read. */
export function Sources() {
  return (
    <p className={styles.source}>
      In our own words. ACC/AHA 2017: Whelton 2018, Hypertension 71:e13-e115,
      doi:10.1161/HYP.0000000000000065; AHA/ACC 2025: guideline on high blood pressure (pocket guide read);
      KDIGO 2021: blood pressure in CKD, Kidney Int 99(3S):S1-S87; NICE NG136: hypertension in adults.
      “Secondary” was read in a text about the source, “from memory” not at all. Another reason for a class:
      an ACE inhibitor or ARB in confirmed albuminuria (KDIGO 2021); a beta blocker, diltiazem or verapamil in
      atrial fibrillation (AHA/ACC 2025); an ACE inhibitor, ARB, beta blocker, mineralocorticoid antagonist or
      diuretic in heart failure (from memory in part). Other reasons, such as angina, are not looked for. Who
      stopped a drug is not in the extract.
    </p>
  )
}
