-- How many days of the last 12 months had an eGFR test, and the latest day that ever had one.
select
  t.patient_id,
  w.as_of,
  max(t.day) as egfr_tested_on,
  cast(count(case when t.day > w.year_after then 1 end) as integer) as egfr_days_in_year
from egfr_test_days as t
join as_of_windows as w on t.day <= w.as_of
group by t.patient_id, w.as_of
