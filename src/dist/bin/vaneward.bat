@echo off
rem Starts Vaneward with the JDK in JAVA_HOME, or else the java on the path. VANEWARD_JAVA_OPTS takes options for it, such as -Xmx4g.
setlocal
set "JAVA=java"
if defined JAVA_HOME set "JAVA=%JAVA_HOME%\bin\java"
where /q "%JAVA%" 2>nul || if not exist "%JAVA%.exe" (
  echo vaneward: needs Java 17 or newer: no "%JAVA%"; set JAVA_HOME or put java on the path 1>&2
  exit /b 2
)
"%JAVA%" -XX:+UseParallelGC -XX:TieredStopAtLevel=1 %VANEWARD_JAVA_OPTS% -jar "%~dp0..\lib\vaneward.jar" %*
exit /b %ERRORLEVEL%
