-- Who may see and change which rows, for the database itself to hold against any program. Made anew whenever this text or the
-- number of migrations (${versions}) changes; after R__who_reaches_what. A table that this text does not name nobody sees but
-- who keeps the database.

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

-- People: everybody finds the own row, directors find and change all. Whom else a person meets stands with the work itself.
select rule('person', '(select sees_all()) or code = session_user::text and (select is_known())', '(select sees_all())');
-- without the column of passwords, if there is one: persons have logins of the database's own here
revoke select on person from sideport_member;
do $$
begin
    execute (select format('grant select (%s) on person to sideport_member', string_agg(quote_ident(attname), ', '))
        from pg_attribute where attrelid = 'person'::regclass and attnum > 0 and not attisdropped
        and attname <> 'password');
end
$$;
select rule('person_role', '(select sees_all()) or person = session_user::text and (select is_known())',
    '(select sees_all())');
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
create or replace function is_assessor_only(code text) returns boolean language plpgsql stable parallel safe security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
begin
    return exists (select 1 from person_role r where r.person = code and r.role <> 'trainee')
        and not exists (select 1 from person_role r where r.person = code and r.role = 'trainee');
end
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

select rule('hidden_area',
    '(select sees_all()) or exists (select 1 from case_access a where a.person = session_user::text
        and a.case_id = hidden_area.case_id)',
    '(select sees_all()) or exists (select 1 from case_access a where a.person = session_user::text
        and a.case_id = hidden_area.case_id and a.plain)');

-- What came with the migrations 11 to 14.
select rule(name::regclass, '(select is_known())', '(select sees_all())')
from unnest('{marking_rule,consent_rule,angoff_round,standard}'::text[]) name;
select rule(name::regclass, '(select sees_all())', '(select sees_all())')
from unnest('{deletion_log,case_deletion}'::text[]) name;
-- A reference is not to be read before one has marked the case oneself.
select rule('agreed_mark',
    '(select sees_all()) or exists (select 1 from case_access a where a.person = session_user::text
        and a.case_id = agreed_mark.case_id and a.works and (purpose = ''adjudication'' or exists (select 1 from rating r
            where r.case_id = agreed_mark.case_id and r.assessor = session_user::text and r.state <> ''draft'')))',
    '(select sees_all())');
select rule('agreed_score',
    '(select sees_all()) or exists (select 1 from agreed_mark m where m.id = mark_id)', '(select sees_all())');
select rule('rating_seal',
    '(select sees_all()) or exists (select 1 from rating r where r.id = rating_id)',
    'exists (select 1 from rating r where r.id = rating_id
        and (r.assessor = session_user::text or (select is_keeper())))');
select rule('rating_origin',
    '(select sees_all()) or exists (select 1 from rating r where r.id = rating_id)', '(select sees_all())');
-- Values of an open round are their judge's alone.
select rule('angoff_judge', '(select is_known())', '(select sees_all()) or judge = session_user::text');
select rule('angoff_value',
    '(select is_keeper()) or judge = session_user::text
        or (select is_known()) and exists (select 1 from angoff_round r where r.id = round_id and r.state <> ''open'')',
    '(select is_keeper()) or judge = session_user::text');
select rule('decision', '(select sees_all()) or trainee = session_user::text', '(select sees_all())');

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

grant usage on all sequences in schema ${flyway:defaultSchema} to sideport_member;

select close_functions();
