/** Indexes for what is asked of every pull that is opened, and of the whole archive. Never edited once released. */

export const indexesOfCertificates = `
-- Opening a pull asks for the certificates that rest on it.
CREATE INDEX certificate_result_pull ON certificate_result (pull_id);
CREATE INDEX certificate_result_certificate ON certificate_result (certificate_id);
-- How many readings there are in all is summed without walking through rows.
CREATE INDEX pull_end_readings ON pull_end (reading_count);
`;
