#!/usr/bin/env node
/** Where the program starts. Compiled code is kept from one start to the next: compiling takes half of a short command's time. */
import { enableCompileCache } from 'node:module';
import { join } from 'node:path';
import { KEPT } from './kept.ts';

enableCompileCache(join(KEPT, 'code'));
await import('./shell.ts');
