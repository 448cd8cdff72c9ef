import "server-only"
import { accessSync, constants, existsSync, mkdirSync } from "node:fs"
import { AppError } from "../errors"

/** Makes the data folder if need be; throws AppError when this user may not write there. */
export function ensureDataFolder(dataDir: string): void {
  try {
    mkdirSync(dataDir, { recursive: true })
    accessSync(dataDir, constants.W_OK | constants.X_OK)
  } catch (cause) {
    throw new AppError(
      "store-unavailable",
      `The data folder ${dataDir} cannot be written. Give yourself the right to, or name another with FILTRATE_DATA.`,
      { cause },
    )
  }
}

/** Throws AppError when a cluster is there that another user made: this one can neither read nor replace it. */
export function ensureOwnCluster(place: string): void {
  if (!existsSync(place)) return
  try {
    accessSync(place, constants.R_OK | constants.W_OK | constants.X_OK)
  } catch (cause) {
    throw new AppError(
      "store-unavailable",
      `The database in ${place} belongs to another user (perhaps it was started with sudo once). Start as that user, or name another folder with FILTRATE_DATA.`,
      { cause },
    )
  }
}
