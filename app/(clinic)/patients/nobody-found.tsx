import { Button } from "../../_ui/button"
import type { PeopleProps } from "./people-props"
import styles from "./nobody-found.module.css"
import { isFiltered, unfiltered } from "./search-params"

/** An empty list says why it is empty and how to get people back. */
export function NobodyFound({ view, panel, query, go, search }: PeopleProps) {
  return (
    <div className={styles.nobody}>
      {panel.length === 0 ? (
        <p>
          Nobody is in the panel on this day: no adult registered by then had a visit in the 18 months before.
        </p>
      ) : (
        <>
          <p>Nobody in the panel fits{query === "" ? " these filters" : " what was typed"}.</p>
          <p className={styles.ways}>
            {query === "" ? null : <Button onClick={() => search("")}>Clear what was typed</Button>}
            {isFiltered(view) ? <Button onClick={() => go(unfiltered(view))}>Show everyone</Button> : null}
          </p>
        </>
      )}
    </div>
  )
}
