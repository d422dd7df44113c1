# What large-fleet.sh asks of R: read rebuilds and findings, build the life of each part, fit a Weibull by component.
# Package data.table reads and sorts, package survival fits. The fleet is without flaws, so no row is judged.
suppressMessages({library(data.table); library(survival)})
folder <- commandArgs(TRUE)[1]
pumps <- fread(file.path(folder, "pumps.csv"), select = c("pump", "commissioned", "hours_per_week"))
rebuilds <- fread(file.path(folder, "rebuilds.csv"), select = c("rebuild", "pump", "hours"))
findings <- fread(file.path(folder, "findings.csv"), select = c("rebuild", "position", "as_found", "action"))
seen <- merge(findings, rebuilds, by = "rebuild")
setorder(seen, pump, position, hours)
ended <- seen[action == "renewed"]
ended[, age := hours - shift(hours, fill = 0), by = .(pump, position)]
ended[, failed := as_found == "failed"]
days <- as.numeric(as.Date("2026-06-30") - as.Date(pumps$commissioned))
end <- data.table(pump = pumps$pump, now = days * pumps$hours_per_week / 7)
last <- ended[, .(since = max(hours)), by = .(pump, position)]
all <- CJ(pump = pumps$pump, position = unique(seen$position))
open <- merge(merge(all, last, by = c("pump", "position"), all.x = TRUE), end, by = "pump")
open[is.na(since), since := 0]
lives <- rbind(ended[, .(position, age, failed)], open[, .(position, age = now - since, failed = FALSE)])
lives <- lives[age > 0]
lives[, component := sub("-.*", "", position)]
fits <- lives[, .(shape = 1 / survreg(Surv(age, failed) ~ 1)$scale), by = component]
cat(sprintf("%d lives; shapes %s\n", nrow(lives), paste(fits$component, round(fits$shape, 3), collapse = ", ")))
