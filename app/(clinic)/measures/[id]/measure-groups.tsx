import { scaleOver } from "../../../_ui/chart-scale"
import { fewestForShare, GroupDots, type GroupRow } from "../../../_ui/group-dots"
import { sentenceCase } from "../../../../lib/speech/format"
import type { GroupCounts, GroupKind } from "../../../../lib/questions/measure-groups"
import { rateOf } from "../../../../lib/statistics/rate"
import type { MeasureFigure } from "../../../../lib/figures/measure-figure"
import { measureHref } from "../search-params"
import styles from "./measure-groups.module.css"

const kinds: { kind: GroupKind; title: string; absent: string }[] = [
  { kind: "clinician", title: "Clinician", absent: "no clinician on record" },
  { kind: "site", title: "Site", absent: "no site on record" },
  { kind: "sex", title: "Sex on record", absent: "not recorded" },
  { kind: "age", title: "Age", absent: "not recorded" },
]

/** The measure by clinician, site, sex and age on one scale, the clinic as a hairline. */
export function MeasureGroups(props: { figure: MeasureFigure; groups: GroupCounts[]; month: string | null }) {
  const { figure, groups } = props
  const { direction, id } = figure.measure
  const rates = groups.map((group) => ({
    group,
    rate: rateOf({ ...group, population: 0, notMet: group.not_met }, direction),
  }))
  const drawn = rates.filter(({ rate }) => rate.total >= fewestForShare)
  const scale =
    drawn.length === 0
      ? null
      : scaleOver(
          [
            figure.rate.rate,
            ...drawn.flatMap(({ rate }) => [rate.interval?.low ?? null, rate.interval?.high ?? null]),
          ],
          { least: 0.2, floor: 0, ceiling: 1 },
        )
  if (rates.length === 0) return <p className={styles.nobody}>No one to divide into groups.</p>
  return (
    <div className={styles.groups}>
      {kinds.map(({ kind, title, absent }) => (
        <GroupDots
          key={kind}
          title={title}
          clinic={figure.rate}
          scale={scale}
          rows={rates
            .filter(({ group }) => group.kind === kind)
            .map(({ group, rate }): GroupRow => ({
              name: group.name === null ? sentenceCase(absent) : sentenceCase(group.name),
              rate,
              href: measureHref(
                id,
                { month: props.month, standing: "met", [kind]: group.key ?? "" },
                "people",
              ),
            }))}
        />
      ))}
    </div>
  )
}
