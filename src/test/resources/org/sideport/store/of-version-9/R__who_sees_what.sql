-- Who may see and change what, for the database itself to hold against any program. Made anew whenever this text or the number
-- of migrations (${versions}) changes.
--
-- Persons sign in with logins of their own, named as their codes, all in the group sideport_member. Work goes through the
-- schema ${shown}: three views there hide what a blinded assessor must not learn; all else are the tables themselves, each
-- under row-level security. A table that this text does not name nobody sees but who keeps the database.

drop schema if exists ${shown} cascade;
create schema ${shown};

do $$
begin
    if not exists (select 1 from pg_roles where rolname = 'sideport_member') then
        create role sideport_member nologin;
    end if;
exception when duplicate_object or unique_violation then
    null; -- another workspace of this server made it at the same moment
end
$$;

-- Who calls. session_user, since within these functions current_user is who keeps the database.

create or replace function is_keeper() returns boolean language sql stable parallel safe security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
    select pg_has_role(session_user, current_user, 'member')
$$;

create or replace function has_role(wanted text) returns boolean language sql stable parallel safe security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
    select exists (select 1 from person p join person_role r on r.person = p.code
        where p.code = session_user::text and p.active and r.role = wanted)
$$;

create or replace function sees_all() returns boolean language sql stable parallel safe security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
    select is_keeper() or has_role('director')
$$;

create or replace function is_known() returns boolean language sql stable parallel safe security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
    select is_keeper() or exists (select 1 from person p join person_role r on r.person = p.code
        where p.code = session_user::text and p.active)
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

-- Row-level security on every table, for who keeps them too; he alone has a policy everywhere.
do $$
declare
    one record;
begin
    for one in select policyname, tablename from pg_policies where schemaname = '${flyway:defaultSchema}' loop
        execute format('drop policy %I on %I', one.policyname, one.tablename);
    end loop;
    for one in select tablename from pg_tables
            where schemaname = '${flyway:defaultSchema}' and tablename <> 'flyway_schema_history' loop
        execute format('revoke all on %I from public, sideport_member', one.tablename);
        execute format('alter table %I enable row level security', one.tablename);
        execute format('alter table %I force row level security', one.tablename);
        execute format('create policy keeper on %I to current_user using (true) with check (true)', one.tablename);
    end loop;
end
$$;

-- A policy for reading, and one for each way of changing.
create or replace function rule(on_table regclass, reads text, writes text) returns void language plpgsql as $$
begin
    execute format('grant select, insert, update, delete on %s to sideport_member', on_table);
    execute format('create policy reads on %s for select to sideport_member using (%s)', on_table, reads);
    execute format('create policy adds on %s for insert to sideport_member with check (%s)', on_table, writes);
    execute format('create policy changes on %s for update to sideport_member using (%s) with check (%s)',
        on_table, writes, writes);
    execute format('create policy removes on %s for delete to sideport_member using (%s)', on_table, writes);
end
$$;

-- People: everybody may know the codes, directors change them.
select rule('person', '(select is_known())', '(select sees_all())');
-- without the column of passwords, if there is one: persons have logins of the database's own here
revoke select on person from sideport_member;
do $$
begin
    execute (select format('grant select (%s) on person to sideport_member', string_agg(quote_ident(attname), ', '))
        from pg_attribute where attrelid = 'person'::regclass and attnum > 0 and not attisdropped
        and attname <> 'password');
end
$$;
select rule('person_role', '(select is_known())', '(select sees_all())');
select rule('rubric_document', '(select is_known())', '(select is_known())');
select rule('case_access', 'person = session_user::text', 'false');
select rule('assignment', '(select sees_all()) or assessor = session_user::text and state <> ''withdrawn''',
    '(select sees_all()) or assessor = session_user::text and state <> ''withdrawn''');

-- What hangs on a case.
select rule('case_descriptor',
    '(select sees_all()) or exists (select 1 from case_access a where a.person = session_user::text
        and a.case_id = case_descriptor.case_id)',
    '(select sees_all()) or exists (select 1 from case_access a where a.person = session_user::text
        and a.case_id = case_descriptor.case_id and a.plain)');
select rule('case_change',
    '(select sees_all()) or exists (select 1 from case_access a where a.person = session_user::text
        and a.case_id = case_change.case_id and a.plain)',
    '(select sees_all()) or changed_by = session_user::text and exists (select 1 from case_access a
        where a.person = session_user::text and a.case_id = case_change.case_id and a.plain)');
select rule('exemplar',
    '(select sees_all()) or exists (select 1 from case_access a where a.person = session_user::text
        and a.case_id = exemplar.case_id and a.plain)',
    '(select sees_all()) or named_by = session_user::text and exists (select 1 from case_access a
        where a.person = session_user::text and a.case_id = exemplar.case_id and a.given and a.plain)');
-- Of a case that is hidden from him in part, a person sees what he wrote himself, and tags and decisions of other assessors: a
-- trainee's own would name the trainee.
create or replace function is_assessor_only(code text) returns boolean language sql stable parallel safe security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
    select exists (select 1 from person_role r where r.person = code and r.role <> 'trainee')
        and not exists (select 1 from person_role r where r.person = code and r.role = 'trainee')
$$;
select rule('recording_cut',
    '(select sees_all()) or exists (select 1 from case_access a where a.person = session_user::text
        and a.case_id = recording_cut.case_id
        and (a.plain or decided_by in ('''', session_user::text) or is_assessor_only(decided_by)))',
    '(select sees_all()) or decided_by in ('''', session_user::text) and exists (select 1 from case_access a
        where a.person = session_user::text and a.case_id = recording_cut.case_id)');

select rule('tagging',
    '(select sees_all()) or exists (select 1 from case_access a where a.person = session_user::text
        and a.case_id = tagging.case_id
        and (a.plain or annotator = session_user::text or is_assessor_only(annotator)))',
    '(select sees_all()) or annotator = session_user::text and exists (select 1 from case_access a
        where a.person = session_user::text and a.case_id = tagging.case_id)');
-- when others tagged it would narrow down the date of the operation
revoke select on tagging from sideport_member;
grant select (id, case_id, annotator, style) on tagging to sideport_member;

select rule(part::regclass,
    '(select sees_all()) or exists (select 1 from tagging t where t.id = tagging_id)',
    'exists (select 1 from tagging t where t.id = tagging_id
        and (t.annotator = session_user::text or (select sees_all())))')
from unnest('{phase_span,confirmed_boundary}'::text[]) part;
select rule('point_event',
    '(select sees_all()) or exists (select 1 from tagging t join case_access a on a.case_id = t.case_id
        and a.person = session_user::text where t.id = tagging_id and (a.events or t.annotator = session_user::text))',
    'exists (select 1 from tagging t where t.id = tagging_id
        and (t.annotator = session_user::text or (select sees_all())))');

-- Marks: a draft is its writer's alone; nobody writes in another's name.
select rule('rating',
    '(select sees_all()) or exists (select 1 from case_access a where a.person = session_user::text
        and a.case_id = rating.case_id and (assessor = session_user::text or a.works and state <> ''draft''))',
    '(select is_keeper()) or assessor = session_user::text and exists (select 1 from case_access a
        where a.person = session_user::text and a.case_id = rating.case_id and (a.own and self or a.given and not self))');
select rule(part::regclass,
    '(select sees_all()) or exists (select 1 from rating r where r.id = rating_id)',
    'exists (select 1 from rating r where r.id = rating_id
        and (r.assessor = session_user::text or (select is_keeper())))')
from unnest('{item_score,item_evidence,rating_action}'::text[]) part;

-- Comments and measurements.
select rule('moment_comment',
    '(select sees_all()) or exists (select 1 from case_access a where a.person = session_user::text
        and a.case_id = moment_comment.case_id and (a.works or author = session_user::text))',
    '(select is_keeper()) or author = session_user::text and ((select sees_all()) or exists (select 1 from case_access a
        where a.person = session_user::text and a.case_id = moment_comment.case_id))');
select rule('comment_reply',
    '(select sees_all()) or exists (select 1 from moment_comment c join case_access a on a.case_id = c.case_id
        and a.person = session_user::text where c.id = comment_id and (a.works or comment_reply.author = session_user::text))',
    '(select is_keeper()) or author = session_user::text and exists (select 1 from moment_comment c where c.id = comment_id)');
select rule('comment_seen',
    '(select is_keeper()) or reader = session_user::text',
    '(select is_keeper()) or reader = session_user::text and exists (select 1 from moment_comment c where c.id = comment_id)');
select rule(part::regclass,
    '(select sees_all()) or exists (select 1 from moment_comment c where c.id = comment_id)',
    'exists (select 1 from moment_comment c where c.id = comment_id
        and (c.author = session_user::text or (select is_keeper())))')
from unnest('{drawn_mark,spoken_comment}'::text[]) part;
select rule('still_measurement',
    '(select sees_all()) or exists (select 1 from case_access a where a.person = session_user::text
        and a.case_id = still_measurement.case_id and (a.works or author = session_user::text))',
    '(select is_keeper()) or author = session_user::text and ((select sees_all()) or exists (select 1 from case_access a
        where a.person = session_user::text and a.case_id = still_measurement.case_id))');
select rule('measured_value',
    '(select sees_all()) or exists (select 1 from still_measurement m where m.id = measurement_id)',
    'exists (select 1 from still_measurement m where m.id = measurement_id
        and (m.author = session_user::text or (select is_keeper())))');

-- An assessor may say that what he was given is done, and no more.
create or replace function assignment_changes() returns trigger language plpgsql security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
begin
    if not sees_all() and (tg_op <> 'UPDATE' or new.state <> 'done'
            or (to_jsonb(new) - 'state' - 'done_at') is distinct from (to_jsonb(old) - 'state' - 'done_at')) then
        raise exception using message = 'only a director gives, changes or withdraws what is to be marked',
            errcode = 'insufficient_privilege';
    end if;
    return case tg_op when 'DELETE' then old else new end;
end
$$;
drop trigger if exists assignment_is_given on assignment;
create trigger assignment_is_given before insert or update or delete on assignment
    for each row execute function assignment_changes();

-- Whose changes are counted among those of all, also where he does not see them.
create or replace function next_revision() returns trigger language plpgsql security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
declare
    of_case bigint;
begin
    if tg_table_name = 'moment_comment' then
        of_case := new.case_id;
    else
        select c.case_id into of_case from moment_comment c where c.id = new.comment_id;
    end if;
    new.revision := greatest(new.revision, (select coalesce(max(x.revision), 0) + 1 from (
        select c.revision from moment_comment c where c.case_id = of_case
        union all select r.revision from comment_reply r join moment_comment c on c.id = r.comment_id
        where c.case_id = of_case) x));
    return new;
end
$$;
drop trigger if exists revision_counts on moment_comment;
create trigger revision_counts before insert or update on moment_comment for each row execute function next_revision();
drop trigger if exists revision_counts on comment_reply;
create trigger revision_counts before insert or update on comment_reply for each row execute function next_revision();

create or replace function one_usual_exemplar() returns trigger language plpgsql security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
begin
    update exemplar set usual = false where usual and procedure_id = new.procedure_id
        and (case_id, annotator) <> (new.case_id, new.annotator);
    return new;
end
$$;
drop trigger if exists usual_is_one on exemplar;
create trigger usual_is_one before insert or update on exemplar for each row when (new.usual)
    execute function one_usual_exemplar();

-- The three views. Each has the columns of its table; a column that this text does not know is empty for a blinded assessor.
create or replace function shown_view(of_table text, key_column text, masks jsonb) returns void language plpgsql as $$
declare
    plain text;
    masked text;
begin
    select string_agg(format('c.%I', attname), ', ' order by attnum),
        string_agg(format('%s as %I', coalesce(masks ->> attname, format('null::%s', format_type(atttypid, atttypmod))),
            attname), ', ' order by attnum)
    into plain, masked
    from pg_attribute where attrelid = of_table::regclass and attnum > 0 and not attisdropped;
    execute format('create view ${shown}.%1$I with (security_barrier) as
        select %2$s from %1$I c where (select sees_all())
        union all
        select %2$s from case_access a join %1$I c on c.%4$I = a.case_id
        where not (select sees_all()) and a.person = session_user::text and a.plain
        union all
        select %3$s from case_access a join %1$I c on c.%4$I = a.case_id
        where not (select sees_all()) and a.person = session_user::text and not a.plain',
        of_table, plain, masked, key_column);
end
$$;

select shown_view('surgical_case', 'id', '{
    "id": "c.id",
    "code": "a.label collate nocase",
    "trainee": "case when ''trainee'' = any(a.hidden) then ''hidden'' else c.trainee end",
    "operated_on": "case when a.hidden && ''{date,order,stage}'' then ''1970-01-01'' else c.operated_on end",
    "procedure_id": "c.procedure_id",
    "consent": "c.consent",
    "consent_purposes": "c.consent_purposes",
    "consent_by": "''''",
    "added_by": "''''"
}');
select shown_view('segment', 'case_id', (
    select jsonb_object_agg(attname, 'c.' || attname) || jsonb_build_object(
        'path', $mask$case when 'file_names' = any(a.hidden)
            then 'blind/' || a.label || '/' || c.ordinal || coalesce(substring(c.path from '\.[A-Za-z0-9]{1,5}$'), '')
            else c.path end$mask$,
        'identity_tags', $mask$''$mask$)
    from pg_attribute where attrelid = 'segment'::regclass and attnum > 0 and not attisdropped));
create view ${shown}.audit_event with (security_barrier) as select * from audit_event where (select sees_all());

grant usage on schema ${flyway:defaultSchema}, ${shown} to sideport_member;
grant select, insert, update, delete on ${shown}.surgical_case, ${shown}.segment to sideport_member;
grant select, insert on ${shown}.audit_event to sideport_member;
grant select on flyway_schema_history to sideport_member;
grant usage on all sequences in schema ${flyway:defaultSchema} to sideport_member;

-- Changes through the views. What a column has by default it has there too.
do $$
declare
    one record;
begin
    for one in select c.relname, a.attname, pg_get_expr(d.adbin, d.adrelid) as value
            from pg_attrdef d join pg_attribute a on a.attrelid = d.adrelid and a.attnum = d.adnum
            join pg_class c on c.oid = d.adrelid
            where c.oid in ('surgical_case'::regclass, 'segment'::regclass) and a.attgenerated = '' loop
        execute format('alter view ${shown}.%I alter column %I set default %s', one.relname, one.attname, one.value);
    end loop;
end
$$;

create or replace function may_change_case(of_case bigint) returns boolean language sql stable security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
    select sees_all() or exists (select 1 from case_access a
        where a.person = session_user::text and a.case_id = of_case and a.plain)
$$;

create or replace function deny(what text) returns void language plpgsql as $$
begin
    raise exception using message = what, errcode = 'insufficient_privilege';
end
$$;

do $$
declare
    names text;
    news text;
    sets text;
begin
    select string_agg(format('%I', attname), ', ' order by attnum), string_agg(format('new.%I', attname), ', ' order by attnum),
        string_agg(format('%1$I = new.%1$I', attname), ', ' order by attnum)
    into names, news, sets
    from pg_attribute where attrelid = 'surgical_case'::regclass and attnum > 0 and not attisdropped;
    execute format($body$
        create or replace function change_case() returns trigger language plpgsql security definer
            set search_path = ${flyway:defaultSchema}, pg_temp as $f$
        begin
            if tg_op = 'DELETE' then
                if not sees_all() then
                    perform deny('only a director deletes a case');
                end if;
                delete from surgical_case where id = old.id;
                return old;
            end if;
            if tg_op = 'INSERT' then
                if not (sees_all() or has_role('assessor') or has_role('trainee') and new.trainee = session_user::text) then
                    perform deny('you may not take in this case');
                end if;
                if not is_keeper() then
                    new.added_by := session_user::text;
                end if;
                insert into surgical_case (%1$s) values (%2$s);
                return new;
            end if;
            if not may_change_case(old.id) or new.id <> old.id
                    or not sees_all() and (new.added_by <> old.added_by
                        or new.trainee <> old.trainee and not has_role('assessor')) then
                perform deny('you may not change this case');
            end if;
            update surgical_case set %3$s where id = old.id;
            return new;
        end
        $f$ $body$, names, news, sets);

    select string_agg(format('%I', attname), ', ' order by attnum), string_agg(format('new.%I', attname), ', ' order by attnum),
        string_agg(format('%1$I = new.%1$I', attname), ', ' order by attnum)
    into names, news, sets
    from pg_attribute where attrelid = 'segment'::regclass and attnum > 0 and not attisdropped;
    execute format($body$
        create or replace function change_segment() returns trigger language plpgsql security definer
            set search_path = ${flyway:defaultSchema}, pg_temp as $f$
        begin
            if not may_change_case(case when tg_op = 'INSERT' then new.case_id else old.case_id end)
                    or tg_op = 'DELETE' and not sees_all()
                    or tg_op = 'UPDATE' and (new.id <> old.id or new.case_id <> old.case_id) then
                perform deny('you may not change the recording of this case');
            end if;
            if tg_op = 'DELETE' then
                delete from segment where id = old.id;
                return old;
            elsif tg_op = 'UPDATE' then
                update segment set %3$s where id = old.id;
                return new;
            end if;
            new.id := coalesce(new.id, nextval(pg_get_serial_sequence('segment', 'id')));
            insert into segment (%1$s) values (%2$s);
            return new;
        end
        $f$ $body$, names, news, sets);
end
$$;

create trigger changes instead of insert or update or delete on ${shown}.surgical_case
    for each row execute function change_case();
create trigger changes instead of insert or update or delete on ${shown}.segment
    for each row execute function change_segment();

-- The audit trail: the database itself says who and when, and makes the chain, one writer after the other. The digest is that of
-- the class AuditStore: SHA-256 over each part with its length in bytes and a colon before it.
create or replace function audit_part(part text) returns bytea language sql immutable as $$
    select convert_to(octet_length(convert_to(part, 'UTF8')) || ':', 'UTF8') || convert_to(part, 'UTF8')
$$;

create or replace function add_audit_event() returns trigger language plpgsql security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
begin
    if not is_known() then
        perform deny('nobody signed in');
    end if;
    perform pg_advisory_xact_lock(hashtext('sideport audit'));
    new.id := nextval(pg_get_serial_sequence('audit_event', 'id'));
    -- as java.time.Instant writes it: no digits, three or six
    new.at := regexp_replace(regexp_replace(to_char(clock_timestamp() at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.US"Z"'),
        '000Z$', 'Z'), '\.000Z$', 'Z');
    new.who := case when is_keeper() then coalesce(new.who, '') else session_user::text end;
    select coalesce((select e.digest from audit_event e order by e.id desc limit 1), '') into new.previous;
    new.digest := encode(sha256(audit_part(new.at) || audit_part(new.who) || audit_part(new.deed) || audit_part(new.subject)
        || audit_part(new.before) || audit_part(new.after) || audit_part(new.previous)), 'hex');
    insert into audit_event (id, at, who, deed, subject, before, after, previous, digest) values
        (new.id, new.at, new.who, new.deed, new.subject, new.before, new.after, new.previous, new.digest);
    return new;
end
$$;
create trigger adds instead of insert on ${shown}.audit_event for each row execute function add_audit_event();

-- Logins. A director makes one for a person who is listed; verifier is what SCRAM keeps, no password.
create or replace function make_login(code text, verifier text) returns boolean language plpgsql security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
begin
    if not sees_all() then
        perform deny('only a director makes logins');
    elsif verifier not like 'SCRAM-SHA-256$%' then
        perform deny('no password is sent, but its verifier');
    elsif not exists (select 1 from person p where p.code = $1) then
        perform deny('there is no such person');
    elsif not exists (select 1 from pg_roles where rolname = code) then
        execute format('create role %I login password %L in role sideport_member', code, verifier);
    elsif not pg_has_role(code, 'sideport_member', 'member')
            or exists (select 1 from pg_roles where rolname = code
                and (rolsuper or rolcreaterole or rolcreatedb or rolbypassrls)) then
        perform deny('there is a login of this name already that is no person of Sideport');
    end if;
    execute format('alter role %I in database %I set search_path = ${shown}, ${flyway:defaultSchema}', code,
        current_database());
    return true;
end
$$;

create or replace function change_password(code text, verifier text) returns boolean language plpgsql security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
begin
    if not (sees_all() or code = session_user::text) or verifier not like 'SCRAM-SHA-256$%'
            or not exists (select 1 from person p where p.code = $1)
            or not exists (select 1 from pg_roles where rolname = code
                and not (rolsuper or rolcreaterole or rolcreatedb or rolbypassrls))
            or not pg_has_role(code, 'sideport_member', 'member') then
        perform deny('you may not change this password');
    end if;
    execute format('alter role %I password %L', code, verifier);
    return true;
end
$$;

-- Of the functions, members call those that the policies and the program ask.
do $$
declare
    one record;
begin
    for one in select p.oid::regprocedure as f, p.proname from pg_proc p join pg_namespace n on n.oid = p.pronamespace
            where n.nspname = '${flyway:defaultSchema}' loop
        execute format('revoke all on function %s from public', one.f);
        if one.proname in ('is_keeper', 'has_role', 'sees_all', 'is_known', 'is_assessor_only', 'rating_is_draft',
                'make_login', 'change_password', 'random_id') then
            execute format('grant execute on function %s to sideport_member', one.f);
        end if;
    end loop;
end
$$;

select renew_access(null, null);
