import { Button } from "../../_ui/button"
import type { Persona } from "../../../lib/store/demo-personas"
import { enterAsPersona } from "../actions"
import styles from "../door.module.css"

/** The invented people of the demo clinic, each entered with a click. */
export function Personas({ personas }: { personas: readonly Persona[] }) {
  return (
    <section aria-labelledby="personas" className={styles.part}>
      <h2 id="personas">Enter the demo clinic as</h2>
      <form action={enterAsPersona} className={styles.personas}>
        {personas.map((persona) => (
          <Button key={persona.userId} type="submit" name="persona" value={persona.userId}>
            {persona.name}, {persona.role}
          </Button>
        ))}
      </form>
      <p className={styles.note}>
        The clinic and everyone in it are invented. As soon as a real extract is brought in, these doors
        close.
      </p>
    </section>
  )
}
