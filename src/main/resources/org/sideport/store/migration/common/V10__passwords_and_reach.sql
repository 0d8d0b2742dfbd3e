-- A password as a PHC string (Argon2id); '' where none is set, or where the database keeps it. failed counts the wrong ones
-- since the last right one.
alter table person add column password text not null default '';
alter table person add column must_change boolean not null default false;
alter table person add column failed bigint not null default 0;
alter table person add column locked_until text;
create unique index person_by_code on person (lower(code));

-- What a trainee and an assessor reach is looked up by these.
create index surgical_case_by_trainee on surgical_case (trainee);
create index surgical_case_by_added on surgical_case (added_by);
create index rating_by_assessor on rating (assessor, state);
