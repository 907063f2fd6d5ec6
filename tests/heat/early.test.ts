import { describe, expect, it } from 'vitest';
import { EARLY_UNTIL, earlyGain, earlyMeanGain } from '../../src/heat/early.js';
import type { Form } from '../../src/heat/roots.js';
import { underConvection } from '../../src/heat/semi-infinite.js';

const FORMS: readonly Form[] = ['wall', 'cylinder', 'sphere'];

describe('the first moments', () => {
  it.each(FORMS)('are those of a half-infinite solid, at the surface at once: %s', (form) => {
    const solid = { conductivity: 1, diffusivity: 1 };
    for (const biot of [0.2, 3, 1e4]) {
      const fourier = 1e-12;
      const flat = underConvection(solid, 0, 1, biot, 0.5e-6, fourier);
      expect(Math.abs(earlyGain(form, biot, fourier, 1 - 0.5e-6) / flat - 1)).toBeLessThan(1e-5);
    }
  });

  it.each(FORMS)('take up what flows in through the surface: %s', (form) => {
    const directions = FORMS.indexOf(form) + 1;
    const end = EARLY_UNTIL[form];
    for (const biot of [0.3, 0.5, 1, 12, 1e3]) {
      // directions x Bi x (1 - gain at the surface), summed over time; in the root of time it is smooth.
      const steps = 4000;
      let heat = 0;
      for (let index = 0; index < steps; index++) {
        const root = Math.sqrt(end) * ((index + 0.5) / steps);
        heat += directions * biot * (1 - earlyGain(form, biot, root * root, 1)) * 2 * root * (Math.sqrt(end) / steps);
      }
      expect(Math.abs(earlyMeanGain(form, biot, end) / heat - 1)).toBeLessThan(1e-5);
    }
  });

  it('have not begun at 0, nor come to the middle of a cylinder', () => {
    for (const form of FORMS) {
      expect(earlyGain(form, 5, 0, 1)).toBe(0);
      expect(earlyMeanGain(form, 5, 0)).toBe(0);
    }
    expect(earlyGain('cylinder', 5, EARLY_UNTIL.cylinder, 0)).toBe(0);
  });
});
