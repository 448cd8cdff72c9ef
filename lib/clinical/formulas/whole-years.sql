-- Gives the age in whole years completed on a day; a birthday on 29 February falls on 1 March in common years.
-- shape: born DATE, on_day DATE, on_day not before born -> INTEGER years
-- absent: null when either day is null
-- throws: nothing
-- source: the project's definitions, section on time; common practice for the 29 February rule
-- example: whole_years(date '2000-02-29', date '2025-02-28') = 24
create or replace macro whole_years(born, on_day) as
  cast(
    extract(year from on_day) - extract(year from born)
    - case
        when extract(month from on_day) * 100 + extract(day from on_day)
          < extract(month from born) * 100 + extract(day from born)
          then 1
        else 0
      end
    as integer);
