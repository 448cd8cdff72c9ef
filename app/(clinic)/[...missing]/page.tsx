import { notFound } from "next/navigation"

/** Any other address, so that the page that says so has the screens' masthead. */
export default function MissingPage() {
  notFound()
}
