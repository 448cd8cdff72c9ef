-- Row security asks this of every row, so the walk along merges is left to records that have one, and the plan is kept.

alter function person_in_part(text) rename to merged_person_in_part;

-- Whether a record's person, found by following merges, is of the part that the settings name.
create function person_in_part(record_id text) returns boolean
language plpgsql stable security definer set search_path = pg_catalog, public as $$
declare
  own record;
  sites constant text := coalesce(current_setting('filtrate.sites', true), '');
  panel constant text := coalesce(current_setting('filtrate.panel', true), '');
begin
  select r.merged_into, r.clinician_id, r.site, r.is_test into own
  from patient_records r
  where r.patient_id = record_id and r.ended_at is null;
  if not found or own.is_test then return false; end if;
  if own.merged_into is not null then return merged_person_in_part(record_id); end if;
  if sites <> '' and not coalesce(own.site = any (string_to_array(sites, chr(31))), false) then return false; end if;
  return panel = '' or coalesce(own.clinician_id = panel, false) and exists (
    select from staff where staff.ended_at is null and staff.staff_id = own.clinician_id);
end
$$;
