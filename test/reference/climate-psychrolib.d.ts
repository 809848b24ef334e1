/** The part of the independent psychrometric library (which ships no types) that the tests use. */
declare module 'psychrolib' {
  const psychrolib: {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    /** Dew point, °C, from dry bulb, °C, and relative humidity, 0 to 1. */
    GetTDewPointFromRelHum(tempC: number, relativeHumidity: number): number;
  };
  export { psychrolib as default };
}
