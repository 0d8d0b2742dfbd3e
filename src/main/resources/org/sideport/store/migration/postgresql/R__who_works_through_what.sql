-- What persons work through: the schema ${shown}, where three views hide what a blinded assessor must not learn; all else are
-- the tables themselves. And what the database does in their names: the audit trail, logins. Made anew whenever this text or
-- the number of migrations (${versions}) changes; after R__who_sees_what.

drop schema if exists ${shown} cascade;
create schema ${shown};

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

-- Two lists for who sees all: an index gives the newest cases, which is of no use behind a view of three parts, and cases are
-- counted without asking of each whether it may be seen.
create or replace function newest_cases(most integer) returns setof bigint language plpgsql stable security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
begin
    if not sees_all() then
        perform deny('only a director sees all cases');
    end if;
    -- planned anew for each number of lines
    return query execute 'select c.id from surgical_case c where c.consent <> ''withdrawn''
        order by c.operated_on desc, c.code limit $1' using most;
end
$$;

create or replace function case_counts() returns table (cases bigint, tagged bigint, signed bigint)
    language plpgsql stable security definer set search_path = ${flyway:defaultSchema}, pg_temp as $$
begin
    if not sees_all() then
        perform deny('only a director sees all cases');
    end if;
    return query select (select count(*) from surgical_case c where c.consent <> 'withdrawn'),
        (select count(*) from (select distinct t.case_id from tagging t) x),
        (select count(*) from (select distinct r.case_id from rating r where r.state = 'signed' and not r.self) y);
end
$$;

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

create or replace function may_change_case(of_case bigint) returns boolean language plpgsql stable security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
begin
    return sees_all() or exists (select 1 from case_access a
        where a.person = session_user::text and a.case_id = of_case and a.plain);
end
$$;

-- Asked for each mark that is changed; as in migration 8, but planned once in a session only.
create or replace function rating_is_draft(rating bigint) returns boolean language plpgsql stable security definer
    set search_path = ${flyway:defaultSchema}, pg_temp as $$
begin
    return coalesce((select r.state = 'draft' from rating r where r.id = $1), true);
end
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

select close_functions();
