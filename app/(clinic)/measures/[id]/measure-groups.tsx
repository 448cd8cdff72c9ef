import { scaleOver, type Scale } from "../../../_ui/chart-scale"
import { Figures } from "../../../_ui/figures"
import { GroupDots, type GroupRow } from "../../../_ui/group-dots"
import type { GroupCounts } from "../../../../lib/questions/measure-groups"
import { groupFigures, type Division, type GroupFigure } from "../../../../lib/figures/group-figures"
import { groupTable } from "../../../../lib/figures/group-table"
import { fewestForRate, type MeasureFigure } from "../../../../lib/figures/measure-figure"
import { counted, day } from "../../../../lib/speech/format"
import type { Rate } from "../../../../lib/statistics/rate"
import { measureHref } from "../search-params"
import { ClinicianGroups } from "./clinician-groups"
import styles from "./measure-groups.module.css"

/** Who and where: the measure by clinician as a funnel, and by site, sex, age and what people say of themselves on one scale. */
export function MeasureGroups(props: {
  figure: MeasureFigure
  groups: GroupCounts[]
  month: string | null
  /** The smallest group shown to who sees counts only; null for who may open people. */
  smallest: number | null
}) {
  const { figure, smallest } = props
  const divisions = groupFigures({ direction: figure.measure.direction, groups: props.groups, smallest })
  if (divisions.length === 0) return <p className={styles.nobody}>No one to divide into groups.</p>
  const scale = commonScale(figure, divisions)
  const asOf = day(figure.months[figure.chosen]?.asOf ?? "")
  const rowsOf = (division: Division) =>
    division.groups.map((group): GroupRow => ({
      name: group.name,
      rate: group.rate,
      href: smallest === null ? hrefOf({ figure, month: props.month, division, group }) : null,
    }))
  return (
    <>
      {smallest === null ? null : (
        <p className={styles.nobody}>
          Groups with fewer than {smallest} people in a count are not shown, nor as many more as would give
          them away.
        </p>
      )}
      <div className={styles.groups}>
        {divisions.map((division) =>
          division.kind === "clinician" ? (
            <ClinicianGroups
              key="clinician"
              division={division}
              rows={rowsOf(division)}
              clinic={figure.rate}
            />
          ) : (
            <div key={division.kind}>
              <DividedDots division={division} clinic={figure.rate} scale={scale} rows={rowsOf(division)} />
              <div className={styles.figures}>
                <Figures table={groupTable(division, asOf)} />
              </div>
            </div>
          ),
        )}
      </div>
    </>
  )
}

const mostAtOnce = 9

/** The groups of one kind; of very many, those of few people and those not shown are one key away. */
function DividedDots(props: { division: Division; clinic: Rate; scale: Scale | null; rows: GroupRow[] }) {
  const { division, clinic, scale, rows } = props
  const isFew = ({ rate }: GroupRow) => rate === null || rate.total < fewestForRate
  const few = rows.length > mostAtOnce ? rows.filter(isFew) : []
  return (
    <>
      <GroupDots
        title={division.title}
        clinic={clinic}
        scale={scale}
        rows={rows.filter((row) => !few.includes(row))}
      />
      {few.length === 0 ? null : (
        <details className={styles.own}>
          <summary>
            {counted(few.length, "further group", "further groups")},{" "}
            {few.some(({ rate }) => rate === null) ? "not shown" : "of few people"}
          </summary>
          <GroupDots title={`${division.title}, further groups`} clinic={clinic} scale={null} rows={few} />
        </details>
      )}
    </>
  )
}

function commonScale(figure: MeasureFigure, divisions: readonly Division[]): Scale | null {
  const drawn = divisions
    .filter(({ kind }) => kind !== "clinician")
    .flatMap(({ groups }) =>
      groups.flatMap(({ rate }) => (rate && rate.total >= fewestForRate ? [rate] : [])),
    )
  if (drawn.length === 0) return null
  const ends = drawn.flatMap(({ interval }) => [interval?.low ?? null, interval?.high ?? null])
  return scaleOver([figure.rate.rate, ...ends], { least: 0.2, floor: 0, ceiling: 1 })
}

function hrefOf(of: {
  figure: MeasureFigure
  month: string | null
  division: Division
  group: GroupFigure
}): string {
  const { figure, month, division, group } = of
  return measureHref(
    figure.measure.id,
    { month, standing: "met", [division.kind]: group.key ?? "" },
    "people",
  )
}
