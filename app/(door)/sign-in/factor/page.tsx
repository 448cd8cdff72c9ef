import type { Metadata } from "next"
import { redirect } from "next/navigation"
import { proposeSeed } from "../../../../lib/auth/second-factor"
import { seedAddress, seedText } from "../../../../lib/auth/totp"
import { store } from "../../../../lib/store/client"
import { listPasskeys } from "../../../../lib/store/passkeys"
import { halfSignedIn } from "../../../_http/half-signed-in"
import { qrPath } from "../../../_ui/qr-path"
import { CodeForm } from "./code-form"
import { EnrolForm } from "./enrol-form"

export const metadata: Metadata = { title: "Second factor" }

export default async function FactorPage() {
  const half = await halfSignedIn()
  if (!half) redirect("/sign-in")
  const { account, key } = half
  if (account.hasFactor) {
    const passkeys = await listPasskeys(store(), account.id)
    return <CodeForm hasPasskey={passkeys.length > 0} />
  }
  const { seed, sealed } = proposeSeed(key, account.id)
  return (
    <EnrolForm sealed={sealed} text={seedText(seed)} picture={qrPath(seedAddress(seed, account.userName))} />
  )
}
