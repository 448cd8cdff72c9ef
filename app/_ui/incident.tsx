/** The number under which the log has a failure; a failure in the browser alone has none. */
export function Incident({ error }: { error: unknown }) {
  const digest = error instanceof Error && "digest" in error ? error.digest : undefined
  if (typeof digest !== "string") return null
  return <p>The log has it as incident {digest.slice(0, 40)}.</p>
}
