import type { Metadata } from "next"
import { store } from "../../../../lib/store/client"
import { findLink } from "../../../../lib/store/one-time-links"
import { LinkForm } from "./link-form"

// The address is the secret: no page that is opened from here may learn it.
export const metadata: Metadata = { title: "Set a password", referrer: "no-referrer" }

export default async function LinkPage({ params }: PageProps<"/setup/[token]">) {
  const { token } = await params
  const link = await findLink(store(), { token, now: new Date() })
  if (!link)
    return (
      <p>
        This link was used, is older than 24 hours, or was replaced by a newer one. An administrator makes a
        new one; the first administrator finds one where the site is started.
      </p>
    )
  const { purpose, user } = link
  return <LinkForm token={token} purpose={purpose} userName={user?.userName ?? null} />
}
