/**
 * Imported before everything else: the page's policy forbids making code from text, and without this the schema
 * library tries it as soon as a schema is made.
 */
import { z } from 'zod';

z.config({ jitless: true });
