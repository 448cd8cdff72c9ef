import type { ReactNode } from "react"
import type { Caller } from "../../lib/access/caller"
import { may, type Capability } from "../../lib/access/permissions"
import { isProvenForLists, proveHref, type Place } from "../_http/prove"
import { ButtonLink, DownloadLink } from "../_ui/button"

/** A list of people as a file: for who may take it, and past a proof of identity when the last is too old. */
export function ListDownload(props: {
  caller: Caller
  needs: Capability
  href: string
  /** Where the proof leads back to. */
  place: Place
  children: ReactNode
}) {
  const { caller, needs, href, place, children } = props
  if (!may(caller, needs)) return null
  if (!isProvenForLists(caller, new Date()))
    return <ButtonLink href={proveHref(place)}>{children}</ButtonLink>
  return <DownloadLink href={href}>{children}</DownloadLink>
}
