import type { Settings } from "../../../../lib/domain/settings"
import { placeOn, scaleOver } from "../../../_ui/chart-scale"
import { counted, day } from "../../../../lib/speech/format"
import { placeWords } from "../../../../lib/speech/pressure-place"
import type { PressureMark } from "../../../../lib/questions/patient-pressures"
import { markHref } from "./mark-href"
import styles from "./pressure-track.module.css"
import { percentAt, type TimeSpan } from "./time-scale"
import { EndLabel, NothingThere, Track } from "./track"
import { placed } from "../../../_ui/placed"

/** Pressures as stems from systolic to diastolic over the target band: the shape at their ends says where they were taken. */
export function PressureTrack(props: {
  /** Those of the day: a closed month has the target it was closed with. */
  settings: Settings
  marks: readonly PressureMark[]
  span: TimeSpan
}) {
  const { settings, marks, span } = props
  const limits = [settings["bp.diastolicTarget"], settings["bp.systolicTarget"]] as const
  const scale = scaleOver([...marks.flatMap((mark) => [mark.systolic, mark.diastolic]), ...limits], {
    least: 60,
  })
  const top = (mmHg: number) => (1 - placeOn(scale, mmHg)) * 100
  return (
    <Track
      name="Pressure"
      unit="mmHg"
      span={span}
      height={176}
      finding={finding(marks, limits)}
      right={
        <>
          <EndLabel top={top(limits[1])}>{limits[1]}</EndLabel>
          <EndLabel top={top(limits[0])}>{limits[0]}</EndLabel>
        </>
      }
    >
      <span
        className={styles.target}
        {...placed({ top: `${top(limits[1])}%`, bottom: `${100 - top(limits[0])}%` })}
      />
      {marks.length === 0 ? <NothingThere>no pressure in these 36 months</NothingThere> : null}
      {marks.map((mark, place) => (
        <a
          key={place}
          tabIndex={-1}
          href={markHref(mark.sources, "pressure")}
          title={markWords(mark)}
          className={`${styles.mark} ${styles[mark.kind]} ${mark.is_valid ? "" : styles.few}`}
          {...placed({
            left: `${percentAt(span, mark.day)}%`,
            top: `${top(mark.systolic)}%`,
            bottom: `${100 - top(mark.diastolic)}%`,
          })}
        >
          <i />
          <i />
        </a>
      ))}
    </Track>
  )
}

/** What the shapes mean, beside the shapes. */
export function PressureKey({ marks }: { marks: readonly PressureMark[] }) {
  const has = (kind: PressureMark["kind"], isValid?: boolean) =>
    marks.some((mark) => mark.kind === kind && (isValid === undefined || mark.is_valid === isValid))
  return (
    <ul className={styles.key} aria-hidden="true">
      {has("office") ? <KeyEntry look={styles.office}>office</KeyEntry> : null}
      {has("home", true) ? <KeyEntry look={styles.home}>home average of the month</KeyEntry> : null}
      {has("home", false) ? (
        <KeyEntry look={`${styles.home} ${styles.few}`}>home, too few readings to count</KeyEntry>
      ) : null}
      {has("ambulatory") ? <KeyEntry look={styles.ambulatory}>24-hour</KeyEntry> : null}
      {has("uncounted") ? (
        <KeyEntry look={styles.uncounted}>hospital, emergency, dialysis: not counted</KeyEntry>
      ) : null}
      <li>
        <span className={styles.targetKey} />
        target in the office
      </li>
    </ul>
  )
}

function KeyEntry({ look, children }: { look: string | undefined; children: string }) {
  return (
    <li>
      <span className={`${styles.shape} ${look}`}>
        <i />
      </span>
      {children}
    </li>
  )
}

export function markWords(mark: PressureMark): string {
  const value = `${mark.systolic}/${mark.diastolic}`
  if (mark.kind === "uncounted") return `${value} on ${day(mark.day)}, ${mark.setting}: not counted`
  if (mark.kind === "home")
    return `${value} at home, average of ${counted(mark.readings, "reading", "readings")} on ${counted(mark.days, "day", "days")} to ${day(mark.day)}${mark.is_valid ? "" : ": too few to count"}`
  const several = mark.readings > 1 ? `, mean of ${mark.readings} readings` : ""
  return `${value} on ${day(mark.day)}, ${placeWords[mark.kind]}${several}`
}

function finding(marks: readonly PressureMark[], limits: readonly [number, number]): string {
  const latest = marks.findLast((mark) => mark.kind !== "uncounted" && mark.is_valid)
  if (!latest) return "No pressure that counts in these 36 months."
  return `${marks.length} pressures; the latest that counts is ${markWords(latest)}. The office target is below ${limits[1]}/${limits[0]}.`
}
