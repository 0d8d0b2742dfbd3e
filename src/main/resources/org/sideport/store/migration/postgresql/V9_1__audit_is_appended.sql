-- A line of the audit trail is neither changed nor taken away, and no two follow the same one.
create unique index audit_chain on audit_event (previous);

create trigger audit_is_appended before update or delete on audit_event for each row
    execute function refuse('the audit trail is only added to');
create trigger audit_is_kept before truncate on audit_event
    execute function refuse('the audit trail is only added to');
