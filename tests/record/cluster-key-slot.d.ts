/** The package has no types of its own. */
declare module 'cluster-key-slot' {
  export default function calculateSlot(key: string): number;
}
