package words

// engineUnits say why a chosen unit is not known, or a file with everything too large.
var engineUnits = map[string]wording{
	"%v is no unit for %v; accepted: %v":                            {"%s n’est pas une unité pour %s ; accepté : %s", "%s no es una unidad para %s; se acepta: %s", "%s ist keine Einheit für %s; möglich: %s"},
	"%v is no quantity to choose a unit for; accepted: %v":          {"%s n’est pas une grandeur dont on choisit l’unité ; accepté : %s", "%s no es una magnitud cuya unidad se elija; se acepta: %s", "%s ist keine Größe, deren Einheit sich wählen lässt; möglich: %s"},
	"%v is no family of units; accepted: us, si":                    {"%s n’est pas une famille d’unités ; accepté : us, si", "%s no es una familia de unidades; se acepta: us, si", "%s ist keine Einheitenfamilie; möglich: us, si"},
	"%v is no set of units; accepted: us, si, ca":                   {"%s n’est pas un ensemble d’unités ; accepté : us, si, ca", "%s no es un conjunto de unidades; se acepta: us, si, ca", "%s ist kein Einheitensatz; möglich: us, si, ca"},
	"The file is larger than a file with everything may be: %d MB.": {"Le fichier dépasse ce que peut faire un fichier complet : %d Mo.", "El archivo supera lo que puede tener un archivo con todo: %d MB.", "Die Datei ist größer, als eine Datei mit allem sein darf: %d MB."},
	"is not the output of a radiator per length":                    {"n’est pas la puissance d’un radiateur par longueur", "no es la potencia de un radiador por longitud", "ist nicht die Leistung eines Heizkörpers je Länge"},
	"is not the output of a section":                                {"n’est pas la puissance d’un élément", "no es la potencia de un elemento", "ist nicht die Leistung eines Glieds"},
	"is not the length of a radiator":                               {"n’est pas la longueur d’un radiateur", "no es la longitud de un radiador", "ist nicht die Länge eines Heizkörpers"},
	"is not a number of sections":                                   {"n’est pas un nombre d’éléments", "no es un número de elementos", "ist keine Zahl von Gliedern"},
	"is given beside the output of the whole":                       {"est donné à côté de la puissance de l’ensemble", "está dado junto a la potencia del conjunto", "steht neben der Leistung des Ganzen"},
	"is given beside an output per length":                          {"est donné à côté d’une puissance par longueur", "está dado junto a una potencia por longitud", "steht neben einer Leistung je Länge"},
	"is given beside the excess temperature":                        {"est donné à côté de l’écart de température", "está dado junto al salto térmico", "steht neben der Übertemperatur"},
	"its length, since its output is given per length":              {"sa longueur, puisque sa puissance est donnée par longueur", "su longitud, ya que su potencia está dada por longitud", "seine Länge, da seine Leistung je Länge gegeben ist"},
	"how many sections it has, since its output is given for one":   {"son nombre d’éléments, puisque sa puissance est donnée pour un", "cuántos elementos tiene, ya que su potencia está dada para uno", "wie viele Glieder er hat, da seine Leistung für eines gegeben ist"},
	"its rated output, or one per length or per section":            {"sa puissance nominale, ou celle par longueur ou par élément", "su potencia nominal, o la de cada longitud o elemento", "seine Normleistung, oder die je Länge oder je Glied"},
	"length of the radiator":                                        {"longueur du radiateur", "longitud del radiador", "Länge des Heizkörpers"},
	"sections of the radiator":                                      {"éléments du radiateur", "elementos del radiador", "Glieder des Heizkörpers"},
	"rated output of a section":                                     {"puissance nominale d’un élément", "potencia nominal de un elemento", "Nennleistung eines Glieds"},
	"there is no such quantity to choose a unit for":                {"il n’y a pas de telle grandeur dont on choisisse l’unité", "no existe tal magnitud cuya unidad se elija", "eine solche Größe, deren Einheit sich wählen ließe, gibt es nicht"},
}
