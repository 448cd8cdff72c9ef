import Link from "next/link"
import type { Caller } from "../../lib/access/caller"
import { isRole, roleWords } from "../../lib/access/roles"
import { signOut } from "../(door)/actions"
import styles from "./shell.module.css"

/** Who is signed in, as what, and the way out. */
export function AccountCorner({ caller }: { caller: Caller }) {
  const words = caller.roles.filter(isRole).map((role) => roleWords[role])
  return (
    <div className={styles.account}>
      <p>
        <Link href="/account" prefetch={false}>
          {caller.name}, {words.join(" and ")}
        </Link>
      </p>
      <form action={signOut}>
        <button type="submit" className={styles.out}>
          Sign out
        </button>
      </form>
    </div>
  )
}
