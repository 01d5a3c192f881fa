/** The language that a certificate was issued in. Never edited once released. */
export const languageOfCertificates = `
-- Of what the program wrote in it, "es"; none: English, as everything before there was a choice.
ALTER TABLE certificate ADD COLUMN language TEXT CHECK (language GLOB '[a-z][a-z]');
`;
