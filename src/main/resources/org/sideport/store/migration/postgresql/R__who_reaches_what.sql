-- Who reaches which case, and how: what the rules of the rows (R__who_sees_what) and the views (R__who_works_through_what) ask.
-- These three are made anew in the order of their names, each whenever its own text or the number of migrations
-- (${versions}) changes; so each must stand by itself on what the others have left.
--
-- Persons sign in with logins of their own, named as their codes, all in the group sideport_member.

do $$
begin
    if not exists (select 1 from pg_roles where rolname = 'sideport_member') then
        create role sideport_member nologin;
    end if;
exception when duplicate_object or unique_violation then
    null; -- another workspace of this server made it at the same moment
end
$$;

-- Who calls; in plpgsql, since a function in SQL is planned anew in each query that asks it. session_user, since within these functions current_user is who keeps the database.

create or replace function is_keeper() returns boolean language plpgsql stable parallel safe security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
begin
    return pg_has_role(session_user, current_user, 'member');
end
$$;

create or replace function has_role(wanted text) returns boolean language plpgsql stable parallel safe security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
begin
    return exists (select 1 from person p join person_role r on r.person = p.code
        where p.code = session_user::text and p.active and r.role = wanted);
end
$$;

create or replace function sees_all() returns boolean language plpgsql stable parallel safe security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
begin
    return is_keeper() or has_role('director');
end
$$;

create or replace function is_known() returns boolean language plpgsql stable parallel safe security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
begin
    return is_keeper() or exists (select 1 from person p join person_role r on r.person = p.code
        where p.code = session_user::text and p.active);
end
$$;

-- Which person reaches which case, and how: kept up to date by triggers, so that a policy is one look into an index.
-- own: operated on it; given: took it in or was given it to mark; plain: nothing of it is hidden from the person;
-- works: sees others' marks and comments; events: sees others' events.
-- The collation is that of session_user, without which the index would be of no use.
create table if not exists case_access (
    person  text collate "C" not null,
    case_id bigint not null references surgical_case (id) on delete cascade,
    own     boolean not null,
    given   boolean not null,
    plain   boolean not null,
    works   boolean not null,
    events  boolean not null,
    label   text,
    hidden  text[] not null,
    primary key (person, case_id)
);
create index if not exists case_access_by_case on case_access (case_id);
-- a blinded case is found by its label, in any letters
create index if not exists case_access_by_label on case_access (person, (label collate nocase)) where not plain;

-- All rows that case_access should hold. Blinding wins: who is to mark a case blind sees it so in whatever way he reaches it.
create or replace view case_access_due as
with way as (
    select c.trainee as person, c.id as case_id, true as own, false as given, null::text as label, '' as hidden
    from surgical_case c join person p on p.code = c.trainee and p.active
    join person_role r on r.person = c.trainee and r.role = 'trainee'
    union all
    select c.added_by, c.id, false, true, null, ''
    from surgical_case c join person p on p.code = c.added_by and p.active
    join person_role r on r.person = c.added_by and r.role = 'assessor'
    union all
    select a.assessor, a.case_id, false, true, case when a.hidden <> '' then a.label end, a.hidden
    from assignment a join person p on p.code = a.assessor and p.active
    join person_role r on r.person = a.assessor and r.role = 'assessor'
    where a.state <> 'withdrawn'
), of_case as (
    select w.person, w.case_id, bool_or(w.own) as own, bool_or(w.given) as given, min(w.label) as label,
        string_to_array(coalesce(string_agg(nullif(w.hidden, ''), ','), ''), ',') as hidden
    from way w group by w.person, w.case_id
)
select o.person, o.case_id, o.own, o.given, o.hidden = '{}' as plain,
    not o.hidden && '{trainee,date,order,stage,earlier_marks}' as works,
    not o.hidden && '{complications}' as events, o.label, o.hidden
from of_case o;

create or replace function renew_access(of_case bigint, of_person text) returns void language sql security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
    delete from case_access a where (of_case is null or a.case_id = of_case) and (of_person is null or a.person = of_person);
    insert into case_access (person, case_id, own, given, plain, works, events, label, hidden)
    select d.person, d.case_id, d.own, d.given, d.plain, d.works, d.events, d.label, d.hidden from case_access_due d
    where (of_case is null or d.case_id = of_case) and (of_person is null or d.person = of_person)
    on conflict do nothing;
$$;

create or replace function access_by_case() returns trigger language plpgsql security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
declare
    row_ jsonb := to_jsonb(case when tg_op = 'DELETE' then old else new end);
begin
    perform renew_access((row_ ->> tg_argv[0])::bigint, null);
    return null;
end
$$;

create or replace function access_by_person() returns trigger language plpgsql security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
declare
    row_ jsonb := to_jsonb(case when tg_op = 'DELETE' then old else new end);
begin
    perform renew_access(null, row_ ->> tg_argv[0]);
    return null;
end
$$;

drop trigger if exists case_is_reached on surgical_case;
create trigger case_is_reached after insert or update of trainee, added_by on surgical_case
    for each row execute function access_by_case('id');
drop trigger if exists case_is_given on assignment;
create trigger case_is_given after insert or update or delete on assignment
    for each row execute function access_by_case('case_id');
drop trigger if exists person_reaches on person;
create trigger person_reaches after insert or update on person for each row execute function access_by_person('code');
drop trigger if exists role_reaches on person_role;
create trigger role_reaches after insert or update or delete on person_role
    for each row execute function access_by_person('person');

-- Of the functions, members call those that the policies and the program ask; each of these texts ends with this, so that
-- none leaves a new one open to all.
create or replace function close_functions() returns void language plpgsql as $$
declare
    one record;
begin
    for one in select p.oid::regprocedure as f, p.proname from pg_proc p join pg_namespace n on n.oid = p.pronamespace
            where n.nspname = '${flyway:defaultSchema}' loop
        execute format('revoke all on function %s from public', one.f);
        if one.proname in ('is_keeper', 'has_role', 'sees_all', 'is_known', 'is_assessor_only', 'rating_is_draft',
                'make_login', 'change_password', 'random_id', 'newest_cases', 'case_counts') then
            execute format('grant execute on function %s to sideport_member', one.f);
        end if;
    end loop;
end
$$;

select close_functions();
select renew_access(null, null);
