import type { Metadata } from "next"
import { providerSettings } from "../../../lib/auth/provider-settings"
import { placeOf } from "../../_http/prove"
import { store } from "../../../lib/store/client"
import { listPasskeys } from "../../../lib/store/passkeys"
import { PasskeyButton } from "../../(door)/passkey-button"
import { requireScreenUser } from "../../_http/require-user"
import { LeavingLink } from "../../_ui/button"
import { Notice } from "../../_ui/notice"
import { askForProof, giveSignedProof } from "./passkey-actions"
import { ProveForm } from "./prove-form"

export const metadata: Metadata = { title: "Confirm identity" }

export default async function ProvePage({ searchParams }: PageProps<"/prove">) {
  const caller = await requireScreenUser("account.own")
  const to = placeOf((await searchParams).to)
  const provider = caller.session.method === "provider" ? providerSettings() : null
  const passkeys = await listPasskeys(store(), caller.userId)
  return (
    <Notice title="Confirm identity">
      <p>
        What was asked for needs a fresh proof. It serves for five minutes, for lists of people for an hour.
      </p>
      {provider ? (
        <div>
          <LeavingLink href={`/provider/leave?to=${to}`}>Go to the clinic's provider</LeavingLink>
        </div>
      ) : null}
      {passkeys.length > 0 ? (
        <PasskeyButton label="Use a passkey" ask={askForProof} give={giveSignedProof.bind(null, to)} />
      ) : null}
      {provider?.factor === "provider" ? null : <ProveForm to={to} />}
    </Notice>
  )
}
