-- Every day on which an adult's eGFR was tested: the days that have a value, and those whose reported value has a comparator,
-- which is a test done though it stages nobody.
select e.patient_id, e.day
from egfr_days as e
union
select r.patient_id, r.day
from filtration_results as r
join people on people.patient_id = r.patient_id
where r.test = 'egfr' and r.is_usable and r.comparator is not null
  and whole_years(people.birth_date, r.day) >= 18
