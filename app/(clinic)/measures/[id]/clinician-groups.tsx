import { FunnelPlot } from "../../../_ui/funnel-plot"
import { GroupDots, type GroupRow } from "../../../_ui/group-dots"
import { funnelFigure } from "../../../../lib/figures/funnel-figure"
import type { Division } from "../../../../lib/figures/group-figures"
import type { Rate } from "../../../../lib/statistics/rate"
import styles from "./measure-groups.module.css"

/** The clinicians around their common rate, never ranked; their figures one key away, or at once where there is no funnel. */
export function ClinicianGroups(props: { division: Division; rows: GroupRow[]; clinic: Rate }) {
  const { division, rows, clinic } = props
  const figure = funnelFigure(division)
  const figures = <GroupDots title={division.title} clinic={clinic} scale={null} rows={rows} />
  if (figure === null) return <div>{figures}</div>
  return (
    <div className={styles.clinicians}>
      <h3 className={styles.title}>{division.title}</h3>
      <FunnelPlot title={division.title} figure={figure} />
      <details className={styles.own}>
        <summary>
          Figures<span className="visually-hidden"> by clinician</span>
        </summary>
        {figures}
      </details>
    </div>
  )
}
