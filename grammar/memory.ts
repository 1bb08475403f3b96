/** A class that hands back the object it is given, so that a class derived from it puts its fields on that one. */
class Same {
  constructor(thing: object) {
    // biome-ignore lint/correctness/noConstructorReturn: this is how a private field comes onto another's object.
    return thing;
  }
}

/** Where one thing keeps what is remembered of it. */
interface Slot<Value> {
  get(thing: object): Value | undefined;
  set(thing: object, value: Value): void;
}

function newSlot<Value>(): Slot<Value> {
  return class Kept extends Same {
    #value: Value;

    constructor(thing: object, value: Value) {
      super(thing);
      this.#value = value;
    }

    static get(thing: object): Value | undefined {
      return #value in thing ? thing.#value : undefined;
    }

    static set(thing: object, value: Value): void {
      if (#value in thing) thing.#value = value;
      else new Kept(thing, value);
    }
  };
}

/**
 * What was worked out of things, for as long as they are there: like a `WeakMap`, but kept on the thing itself, where
 * nobody else sees it. With every letter a new tree, plan and term take the place of the last ones. What a `WeakMap`
 * holds of those lives on until all of the memory is looked through, which copies it about in every small collection
 * before; what a thing keeps goes with it.
 */
export class Memory<Thing extends object, Value> {
  private readonly slot = newSlot<Value>();

  get(thing: Thing): Value | undefined {
    return this.slot.get(thing);
  }

  set(thing: Thing, value: Value): void {
    this.slot.set(thing, value);
  }
}
