import type { ReactNode } from "react"
import styles from "./door.module.css"

export const dynamic = "force-dynamic"

export default function DoorLayout({ children }: { children: ReactNode }) {
  return (
    <main className={styles.door}>
      <h1 className={styles.name}>Filtrate</h1>
      {children}
    </main>
  )
}
