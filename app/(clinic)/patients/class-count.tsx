import styles from "./columns.module.css"

/** How many drug classes: one small square each, and the number. */
export function ClassCount({ count }: { count: number }) {
  if (count === 0) return <span className={styles.absent}>none</span>
  return (
    <span className={styles.classes}>
      <svg width={count * 9 - 2} height="7" aria-hidden="true" focusable="false">
        {Array.from({ length: count }, (_, place) => (
          <rect key={place} x={place * 9} width="7" height="7" />
        ))}
      </svg>
      {count}
    </span>
  )
}
