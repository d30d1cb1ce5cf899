package pipework

import "curvewright/units"

// row is outside diameter, wall and bore as printed, so that a slip in one of the
// three shows.
type row struct {
	size                string
	outside, wall, bore float64
}

type table struct {
	standard  Standard
	unit      units.Length // of the figures
	roughness units.Length
	source    string
	rows      []row
}

func (t table) pipe(r row) Pipe {
	length := func(v float64) units.Length { return units.Length(v) * t.unit }
	return Pipe{Standard: t.standard, Size: r.size, Outside: length(r.outside), Wall: length(r.wall), Bore: length(r.bore), Roughness: t.roughness}
}

const (
	inch       = units.Length(0.0254)
	millimetre = units.Length(0.001)
)

// tables is data; nothing changes it.
var tables = []table{
	{CopperK, inch, DrawnRoughness, "ASTM B88, from memory; a size chart in print has wrong walls above 1 in", []row{
		{"1/4", 0.375, 0.035, 0.305}, {"3/8", 0.500, 0.049, 0.402}, {"1/2", 0.625, 0.049, 0.527}, {"5/8", 0.750, 0.049, 0.652},
		{"3/4", 0.875, 0.065, 0.745}, {"1", 1.125, 0.065, 0.995}, {"1-1/4", 1.375, 0.065, 1.245}, {"1-1/2", 1.625, 0.072, 1.481}, {"2", 2.125, 0.083, 1.959},
	}},
	{CopperL, inch, DrawnRoughness, "ASTM B88, from two published size charts; 1/4 from memory", []row{
		{"1/4", 0.375, 0.030, 0.315}, {"3/8", 0.500, 0.035, 0.430}, {"1/2", 0.625, 0.040, 0.545}, {"5/8", 0.750, 0.042, 0.666},
		{"3/4", 0.875, 0.045, 0.785}, {"1", 1.125, 0.050, 1.025}, {"1-1/4", 1.375, 0.055, 1.265}, {"1-1/2", 1.625, 0.060, 1.505}, {"2", 2.125, 0.070, 1.985},
	}},
	{CopperM, inch, DrawnRoughness, "ASTM B88, from two published size charts", []row{
		{"3/8", 0.500, 0.025, 0.450}, {"1/2", 0.625, 0.028, 0.569}, {"3/4", 0.875, 0.032, 0.811}, {"1", 1.125, 0.035, 1.055},
		{"1-1/4", 1.375, 0.042, 1.291}, {"1-1/2", 1.625, 0.049, 1.527}, {"2", 2.125, 0.058, 2.009},
	}},
	{CopperMetric, millimetre, DrawnRoughness, "EN 1057, common sizes of the British Isles and the continent, from memory", []row{
		{"10x0.6", 10, 0.6, 8.8}, {"12x0.6", 12, 0.6, 10.8}, {"12x1", 12, 1, 10}, {"15x0.7", 15, 0.7, 13.6}, {"15x1", 15, 1, 13}, {"18x1", 18, 1, 16},
		{"22x0.9", 22, 0.9, 20.2}, {"22x1", 22, 1, 20}, {"28x0.9", 28, 0.9, 26.2}, {"28x1", 28, 1, 26}, {"28x1.5", 28, 1.5, 25},
		{"35x1.2", 35, 1.2, 32.6}, {"35x1.5", 35, 1.5, 32}, {"42x1.2", 42, 1.2, 39.6}, {"42x1.5", 42, 1.5, 39},
		{"54x1.2", 54, 1.2, 51.6}, {"54x1.5", 54, 1.5, 51}, {"54x2", 54, 2, 50},
	}},
	{PEX, inch, DrawnRoughness, "ASTM F876/F877, average bore: least wall plus half its tolerance; 3/8 to 3/4 from a published chart, larger from memory; a published volume chart agrees", []row{
		{"3/8", 0.500, 0.075, 0.350}, {"1/2", 0.625, 0.075, 0.475}, {"5/8", 0.750, 0.088, 0.574}, {"3/4", 0.875, 0.102, 0.671}, {"1", 1.125, 0.1315, 0.862},
		{"1-1/4", 1.375, 0.1605, 1.054}, {"1-1/2", 1.625, 0.1905, 1.244}, {"2", 2.125, 0.248, 1.629},
	}},
	{PEXLargest, inch, DrawnRoughness, "ASTM F876, from the least wall; 3/8 to 1 from a published chart, larger from memory", []row{
		{"3/8", 0.500, 0.070, 0.360}, {"1/2", 0.625, 0.070, 0.485}, {"5/8", 0.750, 0.083, 0.584}, {"3/4", 0.875, 0.097, 0.681}, {"1", 1.125, 0.125, 0.875},
		{"1-1/4", 1.375, 0.153, 1.069}, {"1-1/2", 1.625, 0.181, 1.263}, {"2", 2.125, 0.236, 1.653},
	}},
	{PEXMetric, millimetre, DrawnRoughness, "ISO 15875-2 series S5 from 25 mm, below that the walls in common use; from memory", []row{
		{"12x2", 12, 2, 8}, {"14x2", 14, 2, 10}, {"16x2", 16, 2, 12}, {"17x2", 17, 2, 13}, {"18x2", 18, 2, 14}, {"20x2", 20, 2, 16},
		{"25x2.3", 25, 2.3, 20.4}, {"32x2.9", 32, 2.9, 26.2}, {"40x3.7", 40, 3.7, 32.6}, {"50x4.6", 50, 4.6, 40.8}, {"63x5.8", 63, 5.8, 51.4},
	}},
	{PERT, millimetre, DrawnRoughness, "ISO 22391-2 series S5 from 25 mm, below that the walls in common use; from memory", []row{
		{"12x2", 12, 2, 8}, {"14x2", 14, 2, 10}, {"16x2", 16, 2, 12}, {"17x2", 17, 2, 13}, {"18x2", 18, 2, 14}, {"20x2", 20, 2, 16},
		{"25x2.3", 25, 2.3, 20.4}, {"32x2.9", 32, 2.9, 26.2},
	}},
	{Multilayer, millimetre, DrawnRoughness, "ISO 21003 leaves walls to the maker: sizes in common use, from memory; check the print on the tube", []row{
		{"14x2", 14, 2, 10}, {"16x2", 16, 2, 12}, {"18x2", 18, 2, 14}, {"20x2", 20, 2, 16}, {"20x2.25", 20, 2.25, 15.5}, {"26x3", 26, 3, 20},
		{"32x3", 32, 3, 26}, {"40x3.5", 40, 3.5, 33}, {"50x4", 50, 4, 42}, {"63x4.5", 63, 4.5, 54},
	}},
	{SteelSchedule40, inch, SteelRoughness, "ASME B36.10M, from memory", []row{
		{"3/8", 0.675, 0.091, 0.493}, {"1/2", 0.840, 0.109, 0.622}, {"3/4", 1.050, 0.113, 0.824}, {"1", 1.315, 0.133, 1.049}, {"1-1/4", 1.660, 0.140, 1.380},
		{"1-1/2", 1.900, 0.145, 1.610}, {"2", 2.375, 0.154, 2.067}, {"2-1/2", 2.875, 0.203, 2.469}, {"3", 3.500, 0.216, 3.068},
	}},
	{SteelMetric, millimetre, SteelRoughness, "EN 10255 medium series, from memory", []row{
		{"3/8", 17.2, 2.3, 12.6}, {"1/2", 21.3, 2.6, 16.1}, {"3/4", 26.9, 2.6, 21.7}, {"1", 33.7, 3.2, 27.3}, {"1-1/4", 42.4, 3.2, 36.0},
		{"1-1/2", 48.3, 3.2, 41.9}, {"2", 60.3, 3.6, 53.1}, {"2-1/2", 76.1, 3.6, 68.9}, {"3", 88.9, 4.0, 80.9},
	}},
}
