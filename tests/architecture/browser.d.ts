/** What browsers have and the type checker of the system's packages does not know yet. */

interface Array<T> {
  findLast(found: (value: T, index: number) => unknown): T | undefined;
  findLastIndex(found: (value: T, index: number) => unknown): number;
}

interface WakeLockSentinel extends EventTarget {
  readonly released: boolean;
  release(): Promise<void>;
}

interface Navigator {
  readonly wakeLock: { request(sort: "screen"): Promise<WakeLockSentinel> };
}
