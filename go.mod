module curvewright

go 1.26
