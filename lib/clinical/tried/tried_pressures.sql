-- The same, with the pressure that the tried windows choose among the latest occasions.
-- `replace` is a construct of this engine: every other column stays as stored, whichever there are.
with windows as (
  select
    w.as_of,
    now.pressure_after,
    now.pressure_fresh_after,
    earlier.pressure_after as quarter_ago_pressure_after,
    earlier.pressure_fresh_after as quarter_ago_pressure_fresh_after
  from as_of_windows as w
  join pressure_days as now on now.day = w.as_of
  join pressure_days as earlier on earlier.day = w.quarter_after
),
chosen as (
  select
    v.*,
    speaks_out_of_office(
      v.last_office_on,
      v.is_last_office_severe,
      v.last_out_of_office_on,
      w.pressure_after,
      w.pressure_fresh_after) as is_out_of_office,
    speaks_out_of_office(
      v.quarter_ago_office_on,
      v.is_quarter_ago_office_severe,
      v.quarter_ago_out_of_office_on,
      w.quarter_ago_pressure_after,
      w.quarter_ago_pressure_fresh_after) as was_out_of_office
  from tried_kidney as v
  join windows as w on w.as_of = v.as_of
)
select
  v.* replace (
    case when v.is_out_of_office then v.last_out_of_office_source when not v.is_out_of_office then 'office' end as bp_source,
    case when v.is_out_of_office then v.last_out_of_office_on when not v.is_out_of_office then v.last_office_on end as bp_on,
    case when v.is_out_of_office then v.last_out_of_office_systolic when not v.is_out_of_office then v.last_office_systolic end
      as systolic,
    case when v.is_out_of_office then v.last_out_of_office_diastolic when not v.is_out_of_office then v.last_office_diastolic end
      as diastolic,
    case when v.was_out_of_office then v.quarter_ago_out_of_office_source when not v.was_out_of_office then 'office' end
      as quarter_ago_bp_source,
    case when v.was_out_of_office then v.quarter_ago_out_of_office_systolic
      when not v.was_out_of_office then v.quarter_ago_office_systolic end as quarter_ago_systolic,
    case when v.was_out_of_office then v.quarter_ago_out_of_office_diastolic
      when not v.was_out_of_office then v.quarter_ago_office_diastolic end as quarter_ago_diastolic
  )
from chosen as v
