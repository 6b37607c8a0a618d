/**
 * One door to zod. The content-security policy forbids `new Function`, which
 * zod probes for when it builds its fast path; `jitless` must be set before
 * the first schema is made, so every schema module imports `z` from here.
 * Source: colinhacks/zod PR 5864.
 */
import { z } from 'zod';

z.config({ jitless: true });

export { z };
