import Link from "next/link"
import type { Caller } from "../../../lib/access/caller"
import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import type { ClinicianPanel } from "../../../lib/questions/clinician-panels"
import { counted, dayInFull } from "../../../lib/speech/format"
import { Screen, ScreenTitle } from "../../_ui/screen"
import type { ChosenMonth } from "../months"
import { OtherMonths } from "../other-months"
import styles from "./my-patients.module.css"
import { myPatientsHref, type MyPatientsView } from "./search-params"

type ChooseProps = {
  caller: Caller
  panels: readonly ClinicianPanel[]
  view: MyPatientsView
  snapshot: SnapshotMeta
  chosen: ChosenMonth
}

/** Of who has no patients of their own: why, and the clinicians whose patients may be seen. */
export function ChooseClinician({ caller, panels, view, snapshot, chosen }: ChooseProps) {
  return (
    <Screen
      aside={
        <>
          <ScreenTitle title="My patients" size="small">
            <p>Clinicians with people in the panel on {dayInFull(chosen.asOf)}.</p>
          </ScreenTitle>
          <OtherMonths
            {...{ snapshot, chosen }}
            hrefOf={(one) => myPatientsHref({ ...view, month: one, page: null })}
          />
        </>
      }
    >
      <p className={styles.lead}>{whyNobody({ caller, view })}</p>
      {panels.length === 0 ? (
        <p className="soft">No clinician has anybody in the panel whom you may see.</p>
      ) : (
        <>
          <p className={styles.lead}>Whose patients are to be shown?</p>
          <ul className={styles.clinicians}>
            {panels.map((panel) => (
              <li key={panel.clinician_id}>
                <Link
                  href={myPatientsHref({ month: view.month, clinician: panel.clinician_id })}
                  prefetch={false}
                >
                  {panel.name ?? "Name not on record"}
                </Link>{" "}
                <span className="soft">{counted(panel.people, "person", "people")}</span>
              </li>
            ))}
          </ul>
        </>
      )}
    </Screen>
  )
}

function whyNobody({ caller, view }: Pick<ChooseProps, "caller" | "view">): string {
  if (view.clinician !== null)
    return "The clinician asked for has nobody in the panel on that day whom you may see."
  if (caller.staffId === null)
    return "This account is not linked to a clinician of the staff list, so that it has no patients of its own. An administrator links it on the Users screen, under the person on the staff list."
  return "On record you are nobody's clinician in this month: the extract names who is whose, and whoever had or has booked a visit with a dietitian is theirs."
}
