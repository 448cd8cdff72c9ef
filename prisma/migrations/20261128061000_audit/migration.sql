-- CreateTable
CREATE TABLE "audit_entries" (
    "seq" BIGINT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "actor" TEXT NOT NULL,
    "actor_name" TEXT NOT NULL,
    "roles" TEXT[],
    "session" TEXT,
    "origin" TEXT NOT NULL,
    "action" TEXT NOT NULL,
    "object" TEXT,
    "object_id" TEXT,
    "purpose" TEXT,
    "outcome" TEXT NOT NULL,
    "address" TEXT,
    "people" INTEGER NOT NULL DEFAULT 0,
    "people_hash" BYTEA,
    "detail" JSONB NOT NULL DEFAULT '{}',
    "prev" BYTEA NOT NULL,
    "hash" BYTEA NOT NULL,

    CONSTRAINT "audit_entries_pkey" PRIMARY KEY ("seq")
);

-- CreateTable
CREATE TABLE "audit_people" (
    "people_hash" BYTEA NOT NULL,
    "public_id" UUID NOT NULL,

    CONSTRAINT "audit_people_pkey" PRIMARY KEY ("people_hash","public_id")
);

-- CreateIndex
CREATE INDEX "audit_entries_at_idx" ON "audit_entries"("at");

-- CreateIndex
CREATE INDEX "audit_entries_actor_idx" ON "audit_entries"("actor");

-- CreateIndex
CREATE INDEX "audit_entries_people_hash_idx" ON "audit_entries"("people_hash");

-- CreateIndex
CREATE INDEX "audit_people_public_id_idx" ON "audit_people"("public_id");

-- One field of the text an entry is hashed over: its length in bytes, a colon, the field and a comma, or "-," when it is absent.
-- The lengths make sure that no two entries have one text.
create function audit_field(field text) returns text language sql immutable
    set search_path = pg_catalog
    as $$ select coalesce(octet_length(field)::text || ':' || field || ',', '-,') $$;

-- The text an entry is hashed over: every column but `prev` and `hash`, in the order of the table.
create function audit_text(entry audit_entries) returns text language sql stable
    set search_path = pg_catalog, public
    as $$
    select audit_field(entry.seq::text)
        || audit_field(to_char(entry.at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'))
        || audit_field(entry.actor)
        || audit_field(entry.actor_name)
        || audit_field(array_to_string(entry.roles, ' '))
        || audit_field(entry.session)
        || audit_field(entry.origin)
        || audit_field(entry.action)
        || audit_field(entry.object)
        || audit_field(entry.object_id)
        || audit_field(entry.purpose)
        || audit_field(entry.outcome)
        || audit_field(entry.address)
        || audit_field(entry.people::text)
        || audit_field(encode(entry.people_hash, 'hex'))
        || audit_field(entry.detail::text)
    $$;

-- Puts an entry at the end of the chain: one writer at a time numbers it, ties it to the entry before, and hashes it.
-- The lock is held to the end of the transaction, so whatever takes long records itself last.
create function audit_chain() returns trigger language plpgsql security definer
    set search_path = pg_catalog, public
    as $$
    declare
        latest record;
    begin
        perform pg_advisory_xact_lock(4802, 1);
        select e.seq, e.hash into latest from audit_entries as e order by e.seq desc limit 1;
        new.seq := coalesce(latest.seq, 0) + 1;
        new.at := date_trunc('milliseconds', coalesce(new.at, clock_timestamp()));
        new.prev := coalesce(latest.hash, decode(repeat('00', 32), 'hex'));
        new.hash := sha256(new.prev || convert_to(audit_text(new), 'UTF8'));
        return new;
    end
    $$;

create trigger audit_chain before insert on audit_entries
    for each row execute function audit_chain();

create function audit_is_kept() returns trigger language plpgsql
    set search_path = pg_catalog
    as $$
    begin
        raise exception 'the audit log is only added to: % refused', lower(tg_op) using errcode = 'insufficient_privilege';
    end
    $$;

create trigger audit_entries_are_kept before update or delete or truncate on audit_entries
    for each statement execute function audit_is_kept();

create trigger audit_people_are_kept before update or delete or truncate on audit_people
    for each statement execute function audit_is_kept();

-- Also while a session says that it only replays what another server did.
alter table audit_entries enable always trigger audit_chain;
alter table audit_entries enable always trigger audit_entries_are_kept;
alter table audit_people enable always trigger audit_people_are_kept;

-- Number, time and hashes are the chain's own: the site's role may not give them.
do $$
begin
    if exists (select from pg_roles where rolname = 'filtrate_app') then
        revoke all on audit_entries, audit_people from filtrate_app;
        grant select on audit_entries, audit_people to filtrate_app;
        grant insert (actor, actor_name, roles, session, origin, action, object, object_id, purpose, outcome, address,
            people, people_hash, detail) on audit_entries to filtrate_app;
        grant insert on audit_people to filtrate_app;
    end if;
end
$$;
