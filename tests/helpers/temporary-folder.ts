import { chmodSync, mkdtempSync, rmSync } from "node:fs"
import { tmpdir } from "node:os"
import path from "node:path"

/** A folder that another user may enter too: under root the database server runs as one. */
export function temporaryFolder(): { folder: string; remove: () => void } {
  const folder = mkdtempSync(path.join(tmpdir(), "filtrate-test-"))
  chmodSync(folder, 0o755)
  return { folder, remove: () => rmSync(folder, { recursive: true, force: true }) }
}
