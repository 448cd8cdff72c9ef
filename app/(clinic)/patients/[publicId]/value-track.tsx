import { placeOn, scaleOver } from "../../../_ui/chart-scale"
import { day } from "../../../../lib/speech/format"
import { labelSides } from "./label-sides"
import { markHref } from "./mark-href"
import styles from "./value-track.module.css"
import { percentAt, type TimeSpan } from "./time-scale"
import { EndLabel, NothingThere, Track } from "./track"
import { placed } from "../../../_ui/placed"

export type ValuePoint = {
  day: string
  value: number
  /** The value as it is told, with comparator. */
  words: string
  /** How it is drawn: on the line, or beside it because it does not count. */
  look: "on line" | "unused" | "square" | "diamond" | "hollow diamond"
  /** What is to be known of it, in words. */
  remark?: string | null
  sources: readonly string[]
}

type ValueTrackProps = {
  name: string
  unit: string
  /** The name as it stands within a sentence. */
  spoken: string
  section: string
  span: TimeSpan
  points: readonly ValuePoint[]
  /** Levels drawn across, with their words. */
  limits?: readonly { value: number; words: string; isWarm?: boolean }[]
  least: number
  height?: number
  /** Values over several powers of ten are drawn on a logarithmic scale. */
  isLogarithmic?: boolean
  /** Separate records are dots; results of one test are joined. */
  isJoined: boolean
  /** Writes each value beside its dot where there is room. */
  isLabelled?: boolean
}

const mostLabels = 8
const labelHeight = 14

/** Values over time: a line or dots, the limits that matter, the latest value at the end. */
export function ValueTrack(props: ValueTrackProps) {
  const { span, points, limits = [], height = 60 } = props
  const bent = (value: number) => (props.isLogarithmic ? Math.log10(Math.max(1, value)) : value)
  const scale = scaleOver(
    [...points.map((point) => bent(point.value)), ...limits.map((limit) => bent(limit.value))],
    {
      least: props.least,
      floor: 0,
    },
  )
  const top = (value: number) => (1 - placeOn(scale, bent(value))) * 100
  const left = (point: ValuePoint) => percentAt(span, point.day)
  const used = points.filter((point) => point.look !== "unused")
  const latest = used.at(-1)
  const isFree = (value: number) => !latest || Math.abs(top(value) - top(latest.value)) * height > 1500
  const isLabelled = props.isLabelled === true && points.length <= mostLabels
  const sides = isLabelled
    ? labelSides(
        points.map((point) => ({ left: left(point), top: top(point.value) })),
        (labelHeight / height) * 100,
      )
    : []
  return (
    <Track
      {...props}
      height={height}
      finding={finding(props, latest)}
      right={
        <>
          {limits
            .filter((limit) => points.length > 0 && (isLabelled || isFree(limit.value)))
            .map((limit) => (
              <EndLabel key={limit.value} top={top(limit.value)}>
                {limit.words}
              </EndLabel>
            ))}
          {latest && !isLabelled ? (
            <EndLabel kind="value" top={top(latest.value)} href={markHref(latest.sources, props.section)}>
              {latest.words}
            </EndLabel>
          ) : null}
        </>
      }
    >
      {points.length === 0 ? <NothingThere>no {props.spoken} in these 36 months</NothingThere> : null}
      {points.length > 0
        ? limits.map((limit) => (
            <span
              key={limit.value}
              className={`${styles.limit} ${limit.isWarm ? styles.warm : ""}`}
              {...placed({ top: `${top(limit.value)}%` })}
            />
          ))
        : null}
      {props.isJoined && used.length > 1 ? (
        <svg viewBox="0 0 100 100" preserveAspectRatio="none" className={styles.joined} focusable="false">
          <path
            d={`M${used.map((point) => `${left(point).toFixed(2)} ${top(point.value).toFixed(2)}`).join("L")}`}
          />
        </svg>
      ) : null}
      {points.map((point, place) => (
        <a
          key={place}
          tabIndex={-1}
          href={markHref(point.sources, props.section)}
          title={`${point.words} ${props.unit} on ${day(point.day)}${point.remark ? `, ${point.remark}` : ""}`}
          className={`${styles.point} ${lookClass(point.look)}`}
          {...placed({ left: `${left(point)}%`, top: `${top(point.value)}%` })}
        >
          <i />
          {sides[place] ? <span className={styles[sides[place]]}>{point.words}</span> : null}
        </a>
      ))}
    </Track>
  )
}

function lookClass(look: ValuePoint["look"]): string {
  return {
    "on line": "",
    unused: styles.unused ?? "",
    square: styles.square ?? "",
    diamond: styles.diamond ?? "",
    "hollow diamond": `${styles.diamond ?? ""} ${styles.hollow ?? ""}`,
  }[look]
}

function finding(props: ValueTrackProps, latest: ValuePoint | undefined): string {
  const { name, points, unit } = props
  if (!latest) return `${name}: none that counts in these 36 months.`
  const first = points.find((point) => point.look !== "unused")
  const earlier = first && first !== latest ? `, from ${first.words} on ${day(first.day)}` : ""
  return `${name}: ${latest.words} ${unit} on ${day(latest.day)}${earlier}; ${points.length} in all.`
}
