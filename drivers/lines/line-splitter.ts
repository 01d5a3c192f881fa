/** From the text of a line to the texts of its fields, in the order of the format; null where the line does not fit. */
export type LineSplitter = (text: string) => readonly string[] | null;
