import { day, lab } from "../../../../lib/speech/format"
import { sourceWords as placeWords, type PressureSource } from "../../../_ui/pressure-mark"
import type { PatientCaution } from "../../../../lib/questions/patient-cautions"
import styles from "./cautions.module.css"
import { SourceLinks } from "./source-links"

/** What a reader of these values should know first. The facts, and whose decision it is. */
export function Cautions({ cautions }: { cautions: readonly PatientCaution[] }) {
  if (cautions.length === 0) return null
  return (
    <section className={styles.cautions} aria-label="Cautions">
      <ul>
        {cautions.map((caution) => (
          <li key={caution.caution}>
            <Words caution={caution} /> <SourceLinks sources={caution.sources} />
          </li>
        ))}
      </ul>
      <p className={styles.defers}>Clinicians decide; local policy applies.</p>
    </section>
  )
}

function Words({ caution }: { caution: PatientCaution }) {
  const on = caution.day === null ? "" : ` on ${day(caution.day)}`
  const potassium =
    caution.number === null
      ? ""
      : lab({ number: caution.number, comparator: caution.comparator, unit: "mmol/L", decimals: 1 })
  switch (caution.caution) {
    case "severe pressure":
      return (
        <strong>
          Pressure severe{taken(caution.word)}
          {on}.
        </strong>
      )
    case "high potassium":
      return (
        <strong>
          Potassium {potassium}
          {on}.
        </strong>
      )
    case "ras-blocker-in-pregnancy-or-angioedema":
      return (
        <>
          <strong>ACE inhibitor, ARB or renin inhibitor in a pregnancy or after angioedema:</strong>{" "}
          {caution.word}.
        </>
      )
    case "potassium-high-on-drug":
      return (
        <>
          <strong>
            Potassium {potassium}
            {on}
          </strong>
          , on a drug that raises it.
        </>
      )
    case "creatinine-rise-after-start":
      return (
        <>
          <strong>Creatinine up by more than 30% since an ACE inhibitor or ARB was started:</strong>{" "}
          {caution.word}
          {on}.
        </>
      )
    case "stopped-without-taper":
      return (
        <>
          <strong>Stopped without taper{on}:</strong> {caution.word}. It may have run out.
        </>
      )
    case "interfering-drug":
      return (
        <>
          <strong>Pressure above target with a drug that may raise it:</strong> {caution.word}.
        </>
      )
    case "potassium in the diet":
      return <>Potassium in the diet may need a limit: the serum potassium says so.</>
    case "two-ras-blockers":
      return (
        <>
          <strong>Two kinds of RAS blocker active at once:</strong> {caution.word}. A short overlap may be a
          switch.
        </>
      )
    case "pressure-low-on-drugs":
      return (
        <>
          <strong>
            Systolic {caution.number}
            {taken(caution.word)}
            {on}
          </strong>
          , on drugs that lower pressure.
        </>
      )
    case "stopped with albuminuria":
      return (
        <>
          <strong>Protein in the urine confirmed, and ACE inhibitor or ARB stopped{on}.</strong>{" "}
          {caution.word}.
        </>
      )
    case "unread drug":
      return (
        <>
          <strong>Drug text not fully read:</strong> {caution.word}. It may count for no class; Imports maps
          it.
        </>
      )
    case "newer haemolysed":
      return (
        <>
          A newer potassium, {potassium}
          {on}, was haemolysed and is not used.
        </>
      )
    case "raised once":
      return <>Urine albumin raised{on}, not yet confirmed by a second result 90 days apart.</>
    case "single reading":
      return <>The office pressure{on} is a single reading.</>
    case "sex unknown":
      return <>Sex at birth is not recorded: eGFR is taken from the laboratory only.</>
    case "merged":
      return <>Several records of this person are merged; each fact keeps the number it came with.</>
  }
}

function taken(source: string | null): string {
  return source === "office" || source === "home" || source === "ambulatory"
    ? ` (${placeWords[source satisfies PressureSource]})`
    : ""
}
