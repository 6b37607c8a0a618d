/** A small board that uses every statement; invented. Lines are numbered from 1 in the tests. */
export const SMALL_NOTES = `board "Plover HR-2"
deck keys "Side-key flex" flex
deck radio "Radio deck"
deck power "Power deck"
shield can-1 on power
shield can-2 on radio
frame S between radio, power
plug J3 between keys, power
contacts S 38..53 from 2.0, 1.0 step 1.2, 0
contact S.61 at 3.0, 4.0
contacts J3 1..10
part K2 switch on keys
part TP4 test-pad on power
part R3 resistor 4k7 on power
part J9 connector on power
part F2 filter-array on power under can-1
part C12 capacitor 100nF on radio
part R5 resistor 10k on radio
part R18 resistor 100 on radio at 3.1, 4.2
part U1 controller on radio under can-2 ball-grid
pin U1.G4 at 10.2, 8.1
pin U1.G5 at 10.7, 8.1
channel F2.3~F2.8 47
channel F2.8~ground drop 0.62 at 1mA n 1.5 both-ways
channel C12.1~VDD_1V8
channel R5.1~VDD_1V8 10k
track J9.1 - TP4 - R3.1 ohms 0.05
rail VDD_1V8 1.8V on radio load 0.38 reverse 0.60 ohms 12k
net VDD_1V8 C12.2 S.50
clamp U1.G4 0.412 upper 0.45 to VDD_1V8
pull U1.G4 to VDD_1V8 47k
line MARK "Mark key" K2.1 - J3.7 - F2.3~F2.8 - S.41 - R18 - U1.G4
near S.41 S.42 S.53
near U1 within 0.6
good J3.7 diode 0.455 0.452 0.458
good S.41 diode red-on-point split S open can-1 lifted U1 0.61 OL
`;
