export const demoItems = [
  { kind: 'wire', designation: 'G3Si1', name: 'Solid wire 1.2', wireDiameterMm: 1.2, unit: 'kg' },
  { kind: 'wire', designation: 'G3Si1', name: 'Solid wire 1.0', wireDiameterMm: 1.0, unit: 'kg' },
  {
    kind: 'wire',
    designation: 'T 46 4 P M 1',
    name: 'Cored wire 1.2',
    wireDiameterMm: 1.2,
    unit: 'kg',
  },
  {
    kind: 'wire',
    designation: '19 12 3 L Si',
    name: 'Stainless wire 1.0',
    wireDiameterMm: 1.0,
    unit: 'kg',
  },
  {
    kind: 'wire',
    designation: '19 12 3 L',
    name: 'Stainless rod 1.6',
    wireDiameterMm: 1.6,
    unit: 'kg',
  },
  {
    kind: 'gas',
    designation: 'M21',
    name: 'Argon with 18 % carbon dioxide',
    wireDiameterMm: null,
    unit: 'l',
  },
  {
    kind: 'gas',
    designation: 'M12',
    name: 'Argon with 2 % carbon dioxide',
    wireDiameterMm: null,
    unit: 'l',
  },
  { kind: 'gas', designation: 'I1', name: 'Argon', wireDiameterMm: null, unit: 'l' },
  { kind: 'tip', designation: 'M8 1.2', name: 'Contact tip 1.2', wireDiameterMm: 1.2, unit: 'pcs' },
] as const;

/** Lots by item name; the last lot of each wire is the one on the feeder. */
export const demoLots = [
  { item: 'Solid wire 1.2', number: 'L-71', certificate: '3.1 0711', amount: 1_500 },
  { item: 'Solid wire 1.2', number: 'L-77', certificate: '3.1 0774', amount: 1_500 },
  { item: 'Solid wire 1.0', number: 'L-64', certificate: '2.2 0640', amount: 750 },
  { item: 'Cored wire 1.2', number: 'L-80', certificate: '3.1 0802', amount: 480 },
  { item: 'Stainless wire 1.0', number: 'L-58', certificate: '3.1 0581', amount: 450 },
  { item: 'Stainless rod 1.6', number: 'L-59', certificate: null, amount: 100 },
  { item: 'Argon with 18 % carbon dioxide', number: 'G-201', certificate: null, amount: 900_000 },
  { item: 'Argon with 2 % carbon dioxide', number: 'G-188', certificate: null, amount: 400_000 },
  { item: 'Argon', number: 'G-190', certificate: null, amount: 400_000 },
] as const;

/** Loaded at each cell on the day the shop is loaded; R1 runs short for the work that waits. */
export const demoLoads = [
  { cell: 'M1', lot: 'L-71', amount: 13.5 },
  { cell: 'M2', lot: 'L-71', amount: 15 },
  { cell: 'M3', lot: 'L-59', amount: 4.2 },
  { cell: 'R1', lot: 'L-77', amount: 3.2 },
  { cell: 'R2', lot: 'L-77', amount: 148 },
  { cell: 'M1', lot: 'G-201', amount: 9_000 },
  { cell: 'M2', lot: 'G-201', amount: 8_200 },
  { cell: 'M3', lot: 'G-190', amount: 7_400 },
  { cell: 'R1', lot: 'G-201', amount: 10_000 },
  { cell: 'R2', lot: 'G-201', amount: 10_000 },
] as const;
