import { grantable, permissions } from "../../../lib/access/permissions"
import { roles, roleWords } from "../../../lib/access/roles"
import type { UserEntry } from "../../../lib/store/users"
import styles from "./users.module.css"

type Shape = Pick<UserEntry, "name" | "roles" | "grants" | "staffId" | "sites">

const nothing: Shape = { name: "", roles: [], grants: [], staffId: null, sites: [] }

/** What somebody is and may: name, roles, what is granted beyond them, and the limits of what they see. */
export function ShapeFields({ of = nothing, id }: { of?: Shape; id: string }) {
  return (
    <>
      <TextField id={`${id}-name`} label="Name" name="name" value={of.name} isNeeded="yes" />
      <fieldset className={styles.checks}>
        <legend>Roles</legend>
        {roles.map((role) => (
          <label key={role}>
            <input type="checkbox" name="roles" value={role} defaultChecked={of.roles.includes(role)} />
            {roleWords[role]}
          </label>
        ))}
      </fieldset>
      <fieldset className={styles.checks}>
        <legend>Beyond the roles</legend>
        {grantable.map((grant) => (
          <label key={grant}>
            <input type="checkbox" name="grants" value={grant} defaultChecked={of.grants.includes(grant)} />
            {permissions[grant].words}
          </label>
        ))}
      </fieldset>
      <TextField
        id={`${id}-staff`}
        label="Staff id of the extract, whose panel is the own one"
        name="staffId"
        value={of.staffId ?? ""}
      />
      <TextField
        id={`${id}-sites`}
        label="Sites, separated by commas; none is all"
        name="sites"
        value={of.sites.join(", ")}
      />
    </>
  )
}

type TextProps = { id: string; label: string; name: string; value?: string; isNeeded?: "yes" }

export function TextField({ id, label, name, value = "", isNeeded }: TextProps) {
  return (
    <div className={styles.field}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        name={name}
        defaultValue={value}
        required={isNeeded === "yes"}
        maxLength={300}
        autoComplete="off"
      />
    </div>
  )
}
