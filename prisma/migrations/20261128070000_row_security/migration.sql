-- Who may see whom is told by three settings of the transaction: filtrate.scope ('whole' or 'part'), and for a part
-- filtrate.sites (names between characters of code 31, empty for no limit) and filtrate.panel (a member of staff, empty for no
-- limit, one of code 31 for nobody's panel). Without them no row of a patient shows. The owner of the tables, who makes and
-- migrates them, has a policy of its own, and so have the roles that import and that build the snapshot.

-- Whether a record's person, found by following merges, is of the part that the settings name.
create function person_in_part(record_id text) returns boolean
language sql stable security definer set search_path = pg_catalog, public as $$
  with recursive walk as (
    select r.patient_id, r.merged_into, r.clinician_id, r.site, r.is_test
    from patient_records r
    where r.patient_id = record_id and r.ended_at is null
    union
    select r.patient_id, r.merged_into, r.clinician_id, r.site, r.is_test
    from walk
    join patient_records r on r.patient_id = walk.merged_into and r.ended_at is null
  )
  select exists (
    select from walk
    where not coalesce(walk.is_test, false)
      and not exists (
        select from patient_records target where target.patient_id = walk.merged_into and target.ended_at is null)
      and (coalesce(current_setting('filtrate.sites', true), '') = ''
        or walk.site = any (string_to_array(current_setting('filtrate.sites', true), chr(31))))
      and (coalesce(current_setting('filtrate.panel', true), '') = ''
        or exists (
          select from staff
          where staff.ended_at is null and staff.staff_id = walk.clinician_id
            and staff.staff_id = current_setting('filtrate.panel', true)))
  )
$$;

create function is_in_scope(record_id text) returns boolean
language sql stable as $$
  select case current_setting('filtrate.scope', true)
    when 'whole' then true
    when 'part' then person_in_part(record_id)
    else false
  end
$$;

alter table patients enable row level security;
alter table patients force row level security;
create policy owner on patients to current_user using (true) with check (true);
create policy in_scope on patients using (is_in_scope(patient_id)) with check (is_in_scope(patient_id));

alter table patient_records enable row level security;
alter table patient_records force row level security;
create policy owner on patient_records to current_user using (true) with check (true);
create policy in_scope on patient_records using (is_in_scope(patient_id)) with check (is_in_scope(patient_id));

alter table visits enable row level security;
alter table visits force row level security;
create policy owner on visits to current_user using (true) with check (true);
create policy in_scope on visits using (is_in_scope(patient_id)) with check (is_in_scope(patient_id));

alter table appointments enable row level security;
alter table appointments force row level security;
create policy owner on appointments to current_user using (true) with check (true);
create policy in_scope on appointments using (is_in_scope(patient_id)) with check (is_in_scope(patient_id));

alter table readings enable row level security;
alter table readings force row level security;
create policy owner on readings to current_user using (true) with check (true);
create policy in_scope on readings using (is_in_scope(patient_id)) with check (is_in_scope(patient_id));

alter table lab_results enable row level security;
alter table lab_results force row level security;
create policy owner on lab_results to current_user using (true) with check (true);
create policy in_scope on lab_results using (is_in_scope(patient_id)) with check (is_in_scope(patient_id));

alter table medication_orders enable row level security;
alter table medication_orders force row level security;
create policy owner on medication_orders to current_user using (true) with check (true);
create policy in_scope on medication_orders using (is_in_scope(patient_id)) with check (is_in_scope(patient_id));

alter table problems enable row level security;
alter table problems force row level security;
create policy owner on problems to current_user using (true) with check (true);
create policy in_scope on problems using (is_in_scope(patient_id)) with check (is_in_scope(patient_id));

alter table allergies enable row level security;
alter table allergies force row level security;
create policy owner on allergies to current_user using (true) with check (true);
create policy in_scope on allergies using (is_in_scope(patient_id)) with check (is_in_scope(patient_id));

alter table diet_records enable row level security;
alter table diet_records force row level security;
create policy owner on diet_records to current_user using (true) with check (true);
create policy in_scope on diet_records using (is_in_scope(patient_id)) with check (is_in_scope(patient_id));

-- Lines that were rejected name patients in their text alone: they show to who may see the whole clinic.
alter table rejected_rows enable row level security;
alter table rejected_rows force row level security;
create policy owner on rejected_rows to current_user using (true) with check (true);
create policy in_scope on rejected_rows using (current_setting('filtrate.scope', true) = 'whole');
