import styles from "./measure-action.module.css"

/** Whose work this is, and what may be done for the people it finds. */
export function MeasureAction({ measure }: { measure: { actor: string; action: string } }) {
  return (
    <dl className={styles.action}>
      <div>
        <dt>Who acts</dt>
        <dd>The {measure.actor}</dd>
      </div>
      <div>
        <dt>What to do about it</dt>
        <dd>{measure.action}</dd>
      </div>
    </dl>
  )
}
