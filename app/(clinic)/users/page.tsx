import type { Metadata } from "next"
import { store } from "../../../lib/store/client"
import { listUsers } from "../../../lib/store/users"
import { recordedOnce } from "../../_http/recorded"
import { requireScreenUser } from "../../_http/require-user"
import { counted } from "../../../lib/speech/format"
import { AsidePart, Screen, ScreenTitle, Theme } from "../../_ui/screen"
import { InviteForm } from "./invite-form"
import { UserEntryView } from "./user-entry"
import styles from "./users.module.css"

export const metadata: Metadata = { title: "Users" }

export default async function UsersPage() {
  const caller = await requireScreenUser("users.manage")
  await recordedOnce(caller, { action: "users.list" })
  const users = await listUsers(store())
  return (
    <Screen
      aside={
        <>
          <ScreenTitle title="Users" />
          <AsidePart>
            <p>{counted(users.length, "account", "accounts")}.</p>
          </AsidePart>
          <AsidePart>
            <p>
              A link for a password shows once, works once, and ends after 24 hours. It is handed to its
              person after their identity is checked.
            </p>
          </AsidePart>
        </>
      }
    >
      <Theme title="Invite somebody" id="invite">
        <InviteForm />
      </Theme>
      <Theme title="Who can sign in" id="accounts">
        {users.length === 0 ? (
          <p className={`soft ${styles.none}`}>Nobody but the invented people of the demo.</p>
        ) : null}
        <ol className={styles.list}>
          {users.map((user) => (
            <UserEntryView key={`${user.id} ${user.version}`} user={user} />
          ))}
        </ol>
      </Theme>
    </Screen>
  )
}
