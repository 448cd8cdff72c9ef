import Link from "next/link"
import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import type { ClinicianPanel } from "../../../lib/questions/clinician-panels"
import type { OwnCounts } from "../../../lib/questions/own-counts"
import { ownChangeGroups } from "../../../lib/questions/own-changes"
import { monthName } from "../../../lib/speech/format"
import { CountList } from "../../_ui/count-list"
import { hrefOf } from "../../_ui/href"
import { AsidePart, ScreenTitle } from "../../_ui/screen"
import { measureHref } from "../measures/search-params"
import { chosenMonthWords, type ChosenMonth } from "../months"
import { OtherMonths } from "../other-months"
import { groupWords } from "./change-words"
import type { MyPatientsAnswers, Whose } from "./my-patients-answers"
import styles from "./my-patients.module.css"
import { myPatientsHref, type MyPatientsView } from "./search-params"

type AsideProps = {
  answers: MyPatientsAnswers
  panels: readonly ClinicianPanel[]
  whose: NonNullable<Whose>
  view: MyPatientsView
  chosen: ChosenMonth
  snapshot: SnapshotMeta
}

/** Whose patients and when, how they stand, for how many something changed, the other clinicians, and the other months. */
export function MyPatientsAside({ answers, panels, whose, view, chosen, snapshot }: AsideProps) {
  return (
    <>
      <ScreenTitle
        title={whose.isOwn ? "My patients" : `Patients of ${whose.panel.name ?? "a clinician"}`}
        size="small"
      >
        <p>{chosenMonthWords(chosen)}</p>
      </ScreenTitle>
      {answers.counts ? <Standing counts={answers.counts} whose={whose} chosen={chosen} /> : null}
      {answers.changeCounts && chosen.earlierAsOf !== null ? (
        <AsidePart title={`Changed since ${monthName(chosen.earlierAsOf)}`}>
          <CountList
            rows={[
              {
                number: answers.changeCounts.people,
                words: "in any way",
                href: `${myPatientsHref({ ...view, change: null, page: null })}#changes`,
              },
              ...ownChangeGroups.map((group, place) => ({
                number: answers.changeCounts?.by_group[place] ?? 0,
                words: groupWords[group],
                href: `${myPatientsHref({ ...view, change: group, page: null })}#changes`,
              })),
            ]}
          />
        </AsidePart>
      ) : null}
      {panels.length > 1 ? <Others panels={panels} whose={whose} view={view} /> : null}
      <OtherMonths
        {...{ snapshot, chosen }}
        hrefOf={(one) => myPatientsHref({ ...view, month: one, page: null })}
      />
    </>
  )
}

function Standing({ counts, whose, chosen }: { counts: OwnCounts } & Pick<AsideProps, "whose" | "chosen">) {
  const people = (id: string, standing: "counted" | "met" | "not-met" | "unknown") =>
    whose.panel.is_of_record
      ? measureHref(id, { month: chosen.param, standing, clinician: whose.panel.clinician_id }, "people")
      : null
  const everybody = whose.panel.is_of_record
    ? hrefOf("/patients", { clinician: whose.panel.name, month: chosen.param })
    : null
  const pressure = (standing: "met" | "not-met" | "unknown") => people("bp-at-target", standing)
  return (
    <AsidePart>
      <CountList
        rows={[
          { number: counts.people, words: "in the panel", href: everybody },
          { number: counts.at_target, words: "with CKD, pressure at target", href: pressure("met") },
          { number: counts.above_target, words: "above target", href: pressure("not-met") },
          { number: counts.not_measured, words: "not measured", href: pressure("unknown") },
          {
            number: counts.without_ras_blocker,
            words: "with protein in the urine, without an ACE inhibitor or ARB",
            href: people("ras-blocker-in-albuminuria", "not-met"),
          },
          ...(chosen.isRunning
            ? [
                {
                  number: counts.urgent,
                  words: "with something urgent",
                  href: counts.urgent > 0 ? "#urgent" : null,
                },
              ]
            : []),
        ]}
      />
    </AsidePart>
  )
}

function Others({ panels, whose, view }: Pick<AsideProps, "panels" | "whose" | "view">) {
  return (
    <AsidePart>
      <details>
        <summary>Other clinicians</summary>
        <nav aria-label="Clinicians">
          <ul className={styles.others}>
            {panels
              .filter((panel) => panel.clinician_id !== whose.panel.clinician_id)
              .map((panel) => (
                <li key={panel.clinician_id}>
                  <Link
                    href={myPatientsHref({ month: view.month, clinician: panel.clinician_id })}
                    prefetch={false}
                  >
                    {panel.name ?? "Name not on record"}
                  </Link>
                </li>
              ))}
          </ul>
        </nav>
      </details>
    </AsidePart>
  )
}
