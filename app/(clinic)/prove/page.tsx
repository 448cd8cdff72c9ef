import type { Metadata } from "next"
import { placeOf } from "../../_http/prove"
import { requireScreenUser } from "../../_http/require-user"
import { Notice } from "../../_ui/notice"
import { ProveForm } from "./prove-form"

export const metadata: Metadata = { title: "Confirm identity" }

export default async function ProvePage({ searchParams }: PageProps<"/prove">) {
  await requireScreenUser("account.own")
  return (
    <Notice title="Confirm identity">
      <p>What was asked for needs a fresh proof. It serves for five minutes.</p>
      <ProveForm to={placeOf((await searchParams).to)} />
    </Notice>
  )
}
